/** The wire protocol's one version. Raised when a panel of the older version could misread a message. */
export const PROTOCOL = 1;
