import { once } from "node:events";
import { type AddressInfo, connect, createServer, type Server, type Socket } from "node:net";

/** One address in front of several servers, like a proxy: each connection goes to the next server that answers. */
export class Balancer {
  readonly #server: Server;
  readonly #sockets = new Set<Socket>();
  #ports: number[] = [];
  #turn = 0;

  private constructor(server: Server) {
    this.#server = server;
    server.on("connection", (near) => this.#try(near, this.#ports.length));
  }

  static async start(): Promise<Balancer> {
    const server = createServer({ pauseOnConnect: true });
    server.listen(0, "127.0.0.1");
    await once(server, "listening");
    return new Balancer(server);
  }

  get url(): string {
    return `http://127.0.0.1:${(this.#server.address() as AddressInfo).port}`;
  }

  /** @param urls the servers that receive connections from now on */
  before(...urls: string[]): void {
    this.#ports = urls.map((url) => Number(new URL(url).port));
  }

  async close(): Promise<void> {
    for (const socket of this.#sockets) socket.destroy();
    this.#server.close();
    await once(this.#server, "close");
  }

  #try(near: Socket, tries: number): void {
    this.#turn += 1;
    const port = this.#ports[this.#turn % this.#ports.length];
    if (port === undefined || tries === 0) return void near.destroy();
    const far = connect(port, "127.0.0.1");
    far.once("error", () => this.#try(near, tries - 1));
    far.once("connect", () => {
      far.removeAllListeners("error");
      const end = () => {
        for (const socket of [near, far]) {
          this.#sockets.delete(socket);
          socket.destroy();
        }
      };
      for (const socket of [near, far]) this.#sockets.add(socket.on("error", end).on("close", end));
      near.pipe(far);
      far.pipe(near);
      near.resume();
    });
  }
}
