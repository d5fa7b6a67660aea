import { useMemo, useState } from "react";
import type { Site } from "../../server/contract/index.ts";
import { address, go } from "../app/router.tsx";
import { drillsOf, type Known } from "../app/store.ts";
import { ordered } from "../board/order.ts";
import { useManner } from "../parts/manner.ts";
import { Name } from "../parts/names.tsx";
import { PHONE, useMedia, useWidth } from "../parts/use-width.ts";
import { words } from "../words.ts";
import { type Choosing, ChoosingContext } from "./part-link.tsx";
import { PartsList } from "./parts-list.tsx";
import { type Layers, Picture } from "./picture.tsx";
import { Sheet } from "./sheet.tsx";

/** The site as a picture to look into: choose a part to see what it is and what it can do. */
export function SitePicture({
  known,
  site,
  chosen,
  system,
}: {
  readonly known: Known;
  readonly site: Site;
  readonly chosen: string | null;
  readonly system: string | null;
}) {
  const [box, width] = useWidth<HTMLDivElement>();
  const phone = useMedia(PHONE);
  const { units } = useManner();
  const [layers, setLayers] = useState<Layers>({ water: true, power: true, messages: false });
  const { report, partial } = known;
  const drills = useMemo(() => ordered(drillsOf({ report, partial })), [report, partial]);
  const settled = known.site?.settled ?? null;
  const only = phone ? (system ?? systemOf(site, chosen) ?? site.systems[0]?.id ?? null) : null;
  const shownIds = useMemo(
    () => site.systems.map(({ id }) => id).filter((id) => only === null || id === only),
    [site, only],
  );
  const choosing = useMemo<Choosing>(
    () => ({
      chosen,
      reached: chosen ?? site.rooms[0]?.id ?? null,
      addressOf: (part) => address("/site", { part, system }),
    }),
    [chosen, site, system],
  );
  return (
    <>
      <div className="bar-line">
        <h1>{words.picture.title}</h1>
        {phone && site.systems.length > 1 && (
          <fieldset className="seg tabs" aria-label={words.picture.tabs}>
            {site.systems.map(({ id }) => (
              <button
                key={id}
                type="button"
                aria-pressed={id === only}
                onClick={() => go(address("/site", { system: id }), "replace")}
              >
                <Name id={id} />
              </button>
            ))}
          </fieldset>
        )}
        <LayerBoxes layers={layers} onChange={setLayers} />
        <span className="sm settled">{settled === null ? words.picture.unsettled : words.picture.settled}</span>
      </div>
      <div className="wrap">
        <div className="picture">
          <div ref={box} className="pan">
            {width > 0 && (
              <ChoosingContext value={choosing}>
                <Picture key={units} site={site} systemIds={shownIds} settled={settled} width={width} layers={layers} />
              </ChoosingContext>
            )}
          </div>
          <PartsList site={site} addressOf={choosing.addressOf} />
        </div>
        <Sheet site={site} chosen={chosen} settled={settled} drills={drills} />
      </div>
    </>
  );
}

const LAYERS = ["water", "power", "messages"] as const;

function LayerBoxes({ layers, onChange }: { readonly layers: Layers; readonly onChange: (layers: Layers) => void }) {
  return (
    <fieldset className="layers noprint" aria-label={words.picture.layers}>
      {LAYERS.map((layer) => (
        <label className="layer" key={layer}>
          <input
            type="checkbox"
            checked={layers[layer]}
            onChange={(event) => onChange({ ...layers, [layer]: event.target.checked })}
          />
          {layer === "power" && (
            <svg width="24" height="8" aria-hidden="true">
              <path d="M0 4h24M6 1v6M18 1v6" className="pow" />
            </svg>
          )}
          {layer === "messages" && (
            <svg width="24" height="8" aria-hidden="true">
              <path d="M0 4h24" className="msg" />
            </svg>
          )}
          {words.picture.layer[layer]}
        </label>
      ))}
    </fieldset>
  );
}

/** The system that a part belongs to; null for what belongs to the whole site. */
function systemOf(site: Site, id: string | null): string | null {
  if (id === null) return null;
  const device = site.devices.find((candidate) => candidate.id === id);
  const sensor = site.sensors.find((candidate) => candidate.id === id);
  const body = site.bodies.find((candidate) => candidate.id === (sensor?.at ?? id));
  return device?.system ?? body?.system ?? null;
}
