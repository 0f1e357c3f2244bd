import { version } from "../../package.json";

/** The program and its version, as these panels were built. */
export function VersionLine() {
  return <p className="version">Chockside {version}</p>;
}
