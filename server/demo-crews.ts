import type { Post } from "../shared/protocol/posts.ts";

/** A scripted crew that plays in one session. */
export interface PlayingCrew {
  sessionId: string;
  /** Settles when the crew has ended. */
  done: Promise<unknown>;
  stop(): void;
}

/** Plans a session on the server at `url`, and plays every post of it except one. */
export type PlayCrew = (wanted: {
  url: string;
  /** The post that a person takes; null when the crew plays all four. */
  except: Post | null;
  /** Handle of the person who asked: the crew never plays that person. */
  leaveOut: string;
}) => Promise<PlayingCrew>;

/** Crews that play at the same time. Each is four sockets and one session. */
const MOST = 3;

/** A crew could not be begun; the message says why. */
export class NoCrew extends Error {}

/**
 * The scripted crews that the demo plays in the server's own process. They reach the server by its own address, as
 * people do: the same sign-in, the same sockets, the same commands.
 */
export class DemoCrews {
  readonly #load: () => Promise<PlayCrew>;
  readonly #playing = new Set<PlayingCrew>();
  #url: string | null = null;
  #beginning = 0;

  /** @param load loads the crew's program, which a server without a crew never needs */
  constructor(load: () => Promise<PlayCrew>) {
    this.#load = load;
  }

  /** Sets the address at which the crews reach this server. Before it, none can begin. */
  reach(url: string): void {
    this.#url = url;
  }

  /**
   * Begins a crew in a new session. Returns the session's id.
   * @throws NoCrew when enough crews play already, or the demo has no aircraft or people left
   */
  async begin(except: Post | null, leaveOut: string): Promise<string> {
    const url = this.#url;
    if (url === null) throw new NoCrew("this server is not reachable yet");
    if (this.#playing.size + this.#beginning >= MOST)
      throw new NoCrew(`${MOST} crews play already: watch one of them, or end its session`);
    this.#beginning += 1;
    try {
      const play = await this.#load();
      const crew = await play({ url, except, leaveOut }).catch((error: Error) => {
        throw new NoCrew(error.message, { cause: error });
      });
      this.#playing.add(crew);
      const end = () => void this.#playing.delete(crew);
      crew.done.then(end, end);
      return crew.sessionId;
    } finally {
      this.#beginning -= 1;
    }
  }

  /** Ends every crew. Their sessions stay as they are. */
  stop(): void {
    for (const crew of this.#playing) crew.stop();
    this.#playing.clear();
  }
}
