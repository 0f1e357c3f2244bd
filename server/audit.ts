/** What is told to whoever watches over the server: each refusal and each thing the office did. */
export interface Audit {
  refused(what: string, detail: AuditDetail): void;
  done(what: string, detail: AuditDetail): void;
}

export interface AuditDetail {
  /** Id of the person, where one is signed in. */
  person?: string | undefined;
  device?: string | undefined;
  /** Where it came from. */
  address?: string | undefined;
  path?: string | undefined;
}

interface AuditLog {
  info(detail: object, message: string): void;
  warn(detail: object, message: string): void;
}

/** One line each, under `audit`: who, from where, what. Never what was said: it may hold a PIN. */
export function auditTo(log: AuditLog): Audit {
  return {
    refused: (audit, detail) => log.warn({ audit, ...detail }, "refused"),
    done: (audit, detail) => log.info({ audit, ...detail }, "done"),
  };
}
