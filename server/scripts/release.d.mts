export function runtimePackages(): string[];
export function release(into: string): string;
