// The baseline for several servers: the library's own broadcast over Redis Streams.
import { createClient } from "@redis/client";
import { createAdapter } from "@socket.io/redis-streams-adapter";
import { serveBare } from "./bare-server.ts";

const redis = createClient({ url: process.env.REDIS_URL ?? "" });
await redis.connect();
serveBare({ adapter: createAdapter(redis) });
