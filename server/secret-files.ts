import { readFileSync } from "node:fs";
import { StartRefused } from "./start-refused.ts";

/**
 * Settings that hold a secret. Each may be read from a file, as a vault, systemd or a container runtime provides it.
 */
const SECRETS = ["DATABASE_URL", "REDIS_URL", "CHOCKSIDE_SECRET", "CHOCKSIDE_METRICS_TOKEN"] as const;

type FileSetting = `${(typeof SECRETS)[number]}_FILE`;
export const FILE_SETTINGS = SECRETS.map((secret): FileSetting => `${secret}_FILE`);

/** A file with a secret, and the setting that names it. */
export interface SecretFile {
  setting: FileSetting;
  file: string;
}

/** Returns the settings that name a file. */
export const secretFilesOf = (set: NodeJS.ProcessEnv): SecretFile[] =>
  FILE_SETTINGS.flatMap((setting) => {
    const file = set[setting];
    return file === undefined ? [] : [{ setting, file }];
  });

/**
 * Returns the settings with the contents of the named files, without the final line feed.
 * @throws StartRefused names the setting, never the contents
 */
export function withSecrets(set: NodeJS.ProcessEnv): NodeJS.ProcessEnv {
  const all = { ...set };
  for (const { setting, file } of secretFilesOf(set)) {
    const secret = setting.slice(0, -"_FILE".length);
    const refuse = (why: string) => new StartRefused(`settings are wrong: ${setting} ${why}`);
    if (set[secret] !== undefined) throw refuse(`and ${secret} are both set: leave one out`);
    try {
      all[secret] = readFileSync(file, "utf8").replace(/\r?\n$/, "");
    } catch (error) {
      throw refuse(`cannot be read: ${(error as Error).message}`);
    }
    if (all[secret] === "") throw refuse("names an empty file");
  }
  return all;
}
