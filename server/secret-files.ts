import { readFileSync } from "node:fs";
import { StartRefused } from "./start-refused.ts";

/** Settings that hold a secret: each may be read from a file, as a vault, systemd or a container's runtime puts it there. */
const SECRETS = ["DATABASE_URL", "REDIS_URL", "CHOCKSIDE_SECRET", "CHOCKSIDE_METRICS_TOKEN"] as const;

type FileSetting = `${(typeof SECRETS)[number]}_FILE`;
export const FILE_SETTINGS = SECRETS.map((secret): FileSetting => `${secret}_FILE`);

/** The file a secret is read from, and the setting that names it. */
export interface SecretFile {
  setting: FileSetting;
  file: string;
}

/** Those of the settings that name a file. */
export const secretFilesOf = (set: NodeJS.ProcessEnv): SecretFile[] =>
  FILE_SETTINGS.flatMap((setting) => {
    const file = set[setting];
    return file === undefined ? [] : [{ setting, file }];
  });

/**
 * The settings with what the named files hold in them, without the line feed at the end.
 * @throws StartRefused naming the setting, and never what is in the file
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
