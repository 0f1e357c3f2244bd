/** The one version of the wire protocol. Raise it when an older panel could misread a message. */
export const PROTOCOL = 1;
