import { z } from "zod";

/** Returns the schema of an answer that is a file. Its bytes are sent as they are: the route names their media type. */
export const download = (what: string) =>
  z.any().meta({ type: "string", format: "binary", description: what });

/** Returns the schema of an answer that is text, such as a stream, in the same way. */
export const text = (what: string) => z.any().meta({ type: "string", description: what });
