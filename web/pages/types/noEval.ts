import { config } from "zod";

// The content policy of the pages forbids scripts made of text, and a browser notes every try.
config({ jitless: true });
