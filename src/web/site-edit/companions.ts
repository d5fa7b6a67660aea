/** Keys that only make sense together: whoever says the first of a block gets the others as they are taken for granted now. */
import type { Site, WrittenValue } from "../../server/contract/index.ts";

type Block = { readonly [key: string]: WrittenValue };

/** A float that keeps a body at its volume lets this share of it go before it fills. */
const LET_GO = 0.985;

/**
 * What else must be written when the first key of a block is; empty where the key stands alone.
 *
 * @param key the key of the part that begins the block: "own-float"
 */
export function companionsOf(site: Site, id: string, key: string): Block {
  if (key === "own-float") {
    const device = site.devices.find((candidate) => candidate.id === id);
    const volumeL = site.bodies.find((body) => body.id === device?.in)?.volumeL ?? 0;
    const offL = device?.ownFloat?.offL ?? volumeL;
    const onL = device?.ownFloat?.onL ?? volumeL * LET_GO;
    return { "fills-below": litres(onL), "stops-at": litres(offL) };
  }
  if (key === "set-back") return { holds: "16 degC", during: "23:00-06:00" };
  if (key === "silence-watch") return { tells: site.ladder[0]?.person ?? site.people[0]?.id ?? "" };
  return {};
}

function litres(value: number): string {
  return `${Math.round(value * 10) / 10} L`;
}
