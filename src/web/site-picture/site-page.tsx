export function SitePicture(_: { known: unknown; site: unknown; chosen: string | null; system: string | null }) { return null; }
