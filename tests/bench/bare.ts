// The baseline for one server.
import { serveBare } from "./bare-server.ts";

serveBare();
