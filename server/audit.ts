/** Audit log for the server's operator: every refusal and every administrative act. */
export interface Audit {
  refused(what: string, detail: AuditDetail): void;
  done(what: string, detail: AuditDetail): void;
}

export interface AuditDetail {
  /** Id of the signed-in person, if any. */
  person?: string | undefined;
  device?: string | undefined;
  /** IP address the request came from. */
  address?: string | undefined;
  path?: string | undefined;
}

interface AuditLog {
  info(detail: object, message: string): void;
  warn(detail: object, message: string): void;
}

/**
 * Returns an audit that logs one line per entry, under the key `audit`. Request contents are never logged: they may
 * hold a PIN.
 */
export function auditTo(log: AuditLog): Audit {
  return {
    refused: (audit, detail) => log.warn({ audit, ...detail }, "refused"),
    done: (audit, detail) => log.info({ audit, ...detail }, "done"),
  };
}
