import { once } from "node:events";
import { type AddressInfo, connect, createServer, type Server, type Socket } from "node:net";

/** A relay between a server and the ports it connects to. It loses what the test wants lost. */
export class Relay {
  readonly #server: Server;
  readonly #pairs = new Set<[Socket, Socket]>();
  #deaf = false;
  #silent = false;
  #away = false;
  /** Number of answers that were lost. */
  lost = 0;

  private constructor(server: Server) {
    this.#server = server;
  }

  static async to(port: number): Promise<Relay> {
    const server = createServer();
    const relay = new Relay(server);
    server.on("connection", (near) => relay.#pair(near, connect(port, "127.0.0.1")));
    server.listen(0, "127.0.0.1");
    await once(server, "listening");
    return relay;
  }

  get port(): number {
    return (this.#server.address() as AddressInfo).port;
  }

  /** Loses the next answer and the connection with it. */
  loseNextAnswer(): void {
    this.#deaf = true;
  }

  /** Stops all traffic in both directions without telling either side. */
  hang(): void {
    this.#silent = true;
  }

  /** Cuts every connection and accepts none until `back`. */
  away(): void {
    this.#away = true;
    for (const pair of this.#pairs) for (const socket of pair) socket.destroy();
  }

  back(): void {
    this.#away = false;
  }

  async close(): Promise<void> {
    this.away();
    this.#server.close();
    await once(this.#server, "close");
  }

  #pair(near: Socket, far: Socket): void {
    const pair: [Socket, Socket] = [near, far];
    if (this.#away) for (const socket of pair) socket.destroy();
    this.#pairs.add(pair);
    const end = () => {
      this.#pairs.delete(pair);
      for (const socket of pair) socket.destroy();
    };
    for (const socket of pair) socket.on("error", end).on("close", end);
    near.on("data", (chunk) => {
      if (!this.#silent) far.write(chunk);
    });
    far.on("data", (chunk) => {
      if (this.#silent) return;
      if (!this.#deaf) return void near.write(chunk);
      this.#deaf = false;
      this.lost += 1;
      end();
    });
  }
}
