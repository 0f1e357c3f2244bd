import { X509Certificate } from "node:crypto";
import { stat, statfs } from "node:fs/promises";
import { dirname } from "node:path";
import type { Bus } from "../many/bus.ts";
import type { Tls } from "../tls.ts";

const DAY_MS = 86_400_000;

/** One figure about what is around the server, read at each scrape. */
export interface Surrounding {
  name: string;
  help: string;
  read(): Promise<number> | number;
}

/** The file whose time is that of the last good backup. */
export const lastBackupOf = (data: string): string => `${data}.last-backup`;

/**
 * Returns the figures about the disk, the backup, the certificate and Redis. What is not used reads NaN, which no alert
 * compares with; a backup that was never made reads +Inf.
 */
export function surroundings(of: {
  /** Path of the database file; null on PostgreSQL, which is backed up by its own means. */
  data: string | null;
  /** A path on the disk that the server writes to. */
  disk: string;
  tls: Tls | null;
  /** Null without Redis. */
  bus: Bus | null;
  now(): number;
}): Surrounding[] {
  const { data, disk, tls, bus, now } = of;
  const ends = tls && Date.parse(new X509Certificate(tls.cert).validTo);
  return [
    {
      name: "chockside_disk_free_bytes",
      help: "Bytes left to this user on the disk of the database or its keys",
      read: async () => {
        const { bavail, bsize } = await statfs(dirname(disk));
        return bavail * bsize;
      },
    },
    {
      name: "chockside_backup_age_seconds",
      help: "Since the last good backup of the database file; +Inf when there was none",
      read: async () => {
        if (data === null) return Number.NaN;
        const made = await stat(lastBackupOf(data)).catch(() => null);
        return made ? Math.max(0, (now() - made.mtimeMs) / 1000) : Number.POSITIVE_INFINITY;
      },
    },
    {
      name: "chockside_certificate_days",
      help: "Days until the server's certificate ends",
      read: () => (ends === null ? Number.NaN : (ends - now()) / DAY_MS),
    },
    {
      name: "chockside_redis_up",
      help: "1 while the servers reach each other through Redis",
      read: () => (bus === null ? Number.NaN : bus.up ? 1 : 0),
    },
  ];
}
