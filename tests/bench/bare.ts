// The baseline of one server.
import { serveBare } from "./bare-server.ts";

serveBare();
