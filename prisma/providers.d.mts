export type Provider = "sqlite" | "postgresql";
export const PROVIDERS: readonly Provider[];
/** The provider a database's address is for. */
export function providerOf(url: string | undefined): Provider;
/** The schema of one provider, as it lies in `generated/` beside the client made from it. */
export function schemaFor(provider: Provider, model?: string): string;
