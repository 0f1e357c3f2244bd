/** True in the long form of the browser tests: `npm run soak -- --panels` tries every case, `npm test` a few of each kind. */
export const LONG_FORM = process.env.CHOCKSIDE_LONG_FORM === "on";
