export function Timeline(_: { known: unknown; site: unknown; id: string }) { return null; }
