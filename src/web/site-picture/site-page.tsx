import { useCallback, useMemo, useRef, useState } from "react";
import type { SettledLife, Site } from "../../server/contract/index.ts";
import { address, go } from "../app/router.tsx";
import { drillsOf, type Known } from "../app/store.ts";
import { ordered } from "../board/order.ts";
import { type Draft, isChanged, useDraft } from "../draft/draft-store.ts";
import { useManner } from "../parts/manner.ts";
import { Name } from "../parts/names.tsx";
import { PHONE, useMedia, useWidth } from "../parts/use-width.ts";
import { pictureWords } from "../words/site-picture.ts";
import { words } from "../words.ts";
import type { Moving } from "./moving.ts";
import { MovingFoot } from "./moving-foot.tsx";
import { type Choosing, ChoosingContext } from "./part-link.tsx";
import { PartsList } from "./parts-list.tsx";
import { Picture, targetsFor } from "./picture.tsx";
import type { Layers } from "./shapes.ts";
import { Sheet } from "./sheet.tsx";
import type { ZoomHandle } from "./zoom.ts";

/**
 * The site as a picture to look into and to change: choose a part to see what it is and what it can do, take one to put it
 * somewhere else.
 */
export function SitePicture({
  known,
  site,
  chosen,
  system,
}: {
  readonly known: Known;
  /** As it would be with the changes made so far. */
  readonly site: Site;
  readonly chosen: string | null;
  readonly system: string | null;
}) {
  const draft = useDraft();
  const [box, width] = useWidth<HTMLDivElement>();
  const phone = useMedia(PHONE);
  const { units } = useManner();
  const [layers, setLayers] = useState<Layers>({ water: true, power: true, messages: false, people: false });
  const { report, partial } = known;
  const drills = useMemo(() => ordered(drillsOf({ report, partial })), [report, partial]);
  const settled = useMemo(() => settledShown(draft, known, site), [draft, known, site]);
  const written = (isChanged(draft) ? draft.answer?.written : null) ?? known.site?.written ?? null;
  const zoomRef = useRef<ZoomHandle>(null);
  const [nearness, setNearness] = useState(1);
  const targets = useCallback((moving: Moving) => targetsFor(site, written, moving), [site, written]);
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
        <ZoomButtons zoom={zoomRef} nearness={nearness} />
        <span className="sm settled">{settled === null ? words.picture.unsettled : words.picture.settled}</span>
      </div>
      <div className="wrap">
        <div className="picture">
          <div ref={box} className="pan">
            {width > 0 && (
              <ChoosingContext value={choosing}>
                <Picture
                  key={units}
                  site={site}
                  written={written}
                  systemIds={shownIds}
                  settled={settled}
                  width={width}
                  layers={layers}
                  chosen={chosen}
                  zoomRef={zoomRef}
                  onNearness={setNearness}
                />
              </ChoosingContext>
            )}
          </div>
          <MovingFoot targets={targets} />
          <p className="sm keys noprint">{pictureWords.keys}</p>
          <PartsList site={site} addressOf={choosing.addressOf} />
        </div>
        <Sheet site={site} chosen={chosen} settled={settled} drills={drills} />
      </div>
    </>
  );
}

/** Levels and flows of the draft where it has been settled, else those of the file for the waters that still are. */
function settledShown(draft: Draft | null, known: Known, site: Site): SettledLife | null {
  const own = isChanged(draft) ? (draft.trial?.answer.settled ?? null) : null;
  const base = known.site?.settled ?? null;
  if (own !== null || base === null || !isChanged(draft)) return own ?? base;
  const bodies = new Set(site.bodies.map(({ id }) => id));
  const flows = new Set(site.flows.map(({ id }) => id));
  return {
    bodies: Object.fromEntries(Object.entries(base.bodies).filter(([id]) => bodies.has(id))),
    flowsLPerH: Object.fromEntries(Object.entries(base.flowsLPerH).filter(([id]) => flows.has(id))),
  };
}

/** On a phone there are two fingers for it; once it is near, a way back to the whole. */
function ZoomButtons({
  zoom,
  nearness,
}: {
  readonly zoom: { readonly current: ZoomHandle | null };
  readonly nearness: number;
}) {
  return (
    <fieldset className={nearness > 1 ? "zoom near noprint" : "zoom noprint"} aria-label={pictureWords.zoom.group}>
      <button type="button" aria-label={pictureWords.zoom.out} onClick={() => zoom.current?.by(1 / STEP)}>
        {"\u2212"}
      </button>
      <button type="button" aria-label={pictureWords.zoom.in} onClick={() => zoom.current?.by(STEP)}>
        +
      </button>
      <button type="button" disabled={nearness === 1} onClick={() => zoom.current?.whole()}>
        {pictureWords.zoom.whole}
      </button>
    </fieldset>
  );
}

const STEP = 1.4;
const LAYERS = ["water", "power", "messages", "people"] as const;

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
          {layer === "people" ? pictureWords.people : words.picture.layer[layer]}
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
