import {
  type FocusEvent,
  type KeyboardEvent,
  type RefObject,
  useEffect,
  useImperativeHandle,
  useMemo,
  useRef,
  useState,
} from "react";
import type { SettledLife, Site, WrittenValue } from "../../server/contract/index.ts";
import { useNames } from "../parts/names.tsx";
import { pictureWords } from "../words/site-picture.ts";
import { words } from "../words.ts";
import { boxesOf } from "./boxes.ts";
import { BelowFloor } from "./draw-below.tsx";
import { LabelText, Leader } from "./draw-label.tsx";
import { MovingLayer } from "./draw-moving.tsx";
import { SpotDrawing, SystemDrawing } from "./draw-system.tsx";
import { useHand } from "./hand.ts";
import type { Drawn } from "./lay-out-place.ts";
import { layOutScene } from "./lay-out-scene.ts";
import { beginConnect, beginMove, type Moving, useMoving } from "./moving.ts";
import { moveAmongParts, PartLink } from "./part-link.tsx";
import type { Layers, Point, Scene, Storey, Vessel } from "./shapes.ts";
import { connectionsOf, type Target, targetsOf } from "./targets.ts";
import { useZoom, type ZoomHandle } from "./zoom.ts";

/** The places that take what is being moved. */
export function targetsFor(
  site: Site,
  written: WrittenValue | null,
  { part, task, plugOnly }: Pick<Moving, "part" | "task" | "plugOnly">,
): readonly Target[] {
  return task === "connect" ? connectionsOf(site, written, part) : targetsOf(site, written, part, plugOnly);
}

/** A section through the place: waters to rough scale over the floor; power, messages and people below it. */
export function Picture({
  site,
  written,
  systemIds,
  settled,
  width,
  layers,
  chosen,
  zoomRef,
  onNearness,
}: {
  readonly site: Site;
  readonly written: WrittenValue | null;
  readonly systemIds: readonly string[];
  readonly settled: SettledLife | null;
  readonly width: number;
  readonly layers: Layers;
  readonly chosen: string | null;
  readonly zoomRef: RefObject<ZoomHandle | null>;
  readonly onNearness: (nearness: number) => void;
}) {
  const scene = useScene(site, systemIds, settled, width, layers);
  const height = scene.below.bottom;
  const boxes = useMemo(() => boxesOf(scene), [scene]);
  const svg = useRef<SVGSVGElement>(null);
  const ground = useRef<SVGGElement>(null);
  const { transform, nearness, handle } = useZoom(svg, scene.width, height);
  useImperativeHandle(zoomRef, () => handle, [handle]);
  useEffect(() => onNearness(nearness), [onNearness, nearness]);
  const [point, setPoint] = useState<Point | null>(null);
  const { moving } = useMoving();
  useHand(svg, ground, { boxes, targets: (held) => targetsFor(site, written, held), follow: setPoint });
  useFocusBack(svg, moving, scene);
  const targets = useMemo(() => (moving === null ? [] : targetsFor(site, written, moving)), [site, written, moving]);
  const canConnect = useMemo(
    () => chosen !== null && connectionsOf(site, written, chosen).length > 0,
    [site, written, chosen],
  );
  const drawing = useMemo(() => <SceneDrawing scene={scene} site={site} layers={layers} />, [scene, site, layers]);

  const press = (event: KeyboardEvent<SVGSVGElement>): void => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (zoomByKey(event, handle)) {
      event.preventDefault();
      return;
    }
    const part =
      event.target instanceof Element ? event.target.closest<SVGElement>("[data-part]")?.dataset.part : undefined;
    const key = event.key.toLowerCase();
    if (part !== undefined && moving === null && key === "m") beginMove(part);
    else if (part !== undefined && moving === null && key === "c") beginConnect(part);
    else moveAmongParts(event);
  };
  const bringIntoView = (event: FocusEvent<SVGSVGElement>): void => {
    const part = event.target.closest<SVGElement>("[data-part]")?.dataset.part;
    const box = part === undefined ? undefined : boxes.get(part)?.[0];
    // Only where the tab or an arrow key led there: what is pressed is in view already.
    if (box !== undefined && event.target.matches(":focus-visible")) handle.show(box);
  };
  return (
    <svg
      ref={svg}
      className={moving === null ? "place-picture" : "place-picture is-moving"}
      width={width}
      height={(height * width) / scene.width}
      viewBox={`0 0 ${scene.width} ${height}`}
      aria-label={words.picture.name(site.name, systemIds.length)}
      data-near={nearness > 1}
      data-nearness={nearness}
      onKeyDown={press}
      onFocus={bringIntoView}
    >
      <rect className="ground-hit" width={scene.width} height={height} />
      <g ref={ground} className="near" transform={transform}>
        {drawing}
        {canConnect && chosen !== null && moving === null && <ConnectHandle scene={scene} body={chosen} />}
        {moving !== null && <MovingLayer moving={moving} targets={targets} boxes={boxes} point={point} />}
      </g>
    </svg>
  );
}

/** The layout, which remembers how closely each system was drawn, so that a change moves only what it touches. */
function useScene(
  site: Site,
  systemIds: readonly string[],
  settled: SettledLife | null,
  width: number,
  { messages, people }: Layers,
): Scene {
  const names = useNames();
  const memory = useRef<{ readonly picture: string; readonly drawn: Drawn } | null>(null);
  const picture = `${site.name} ${systemIds.length === 1 ? systemIds[0] : ""} ${width}`;
  const laidOut = useMemo(
    () =>
      layOutScene({
        site,
        systemIds,
        settled,
        width,
        shown: { messages, people },
        nameOf: (id) => names.water(id) ?? id,
        before: memory.current?.picture === picture ? memory.current.drawn : null,
      }),
    [site, systemIds, settled, width, messages, people, names, picture],
  );
  useEffect(() => {
    memory.current = { picture, drawn: laidOut.drawn };
  }, [picture, laidOut]);
  return laidOut.scene;
}

/** After a move by keyboard the focus is on the part again, wherever it has gone to. */
function useFocusBack(svg: RefObject<SVGSVGElement | null>, moving: Moving | null, scene: Scene): void {
  const last = useRef<Moving | null>(null);
  useEffect(() => {
    if (moving !== null) {
      last.current = moving;
      return;
    }
    const part = last.current?.by === "keys" ? last.current.part : null;
    if (part === null || (document.activeElement !== document.body && document.activeElement !== null)) return;
    svg.current?.querySelector<SVGElement>(`[data-part="${CSS.escape(part)}"]`)?.focus({ preventScroll: true });
    // `scene`: what has moved is a new element, and has lost the focus that the old one had.
    void scene;
  }, [svg, moving, scene]);
}

const NEARER = 1.4;
const PAN = 0.15;
const PANS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-PAN, 0],
  ArrowRight: [PAN, 0],
  ArrowUp: [0, -PAN],
  ArrowDown: [0, PAN],
};

function zoomByKey({ key, shiftKey }: KeyboardEvent, handle: ZoomHandle): boolean {
  const pan = PANS[key];
  if (shiftKey && pan !== undefined) handle.pan(...pan);
  else if (key === "+" || key === "=") handle.by(NEARER);
  else if (key === "-") handle.by(1 / NEARER);
  else if (key === "0") handle.whole();
  else return false;
  return true;
}

/** On the rim of the chosen water: pulled or pressed to join it to another. */
function ConnectHandle({ scene, body }: { readonly scene: Scene; readonly body: string }) {
  const names = useNames();
  const place = rimOf(scene, body);
  if (place === null) return null;
  const press = (event: KeyboardEvent): void => {
    if (event.key !== "Enter" && event.key !== " ") return;
    event.preventDefault();
    beginConnect(body);
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing has no button elements
    <g
      role="button"
      tabIndex={0}
      className="connect"
      data-connect={body}
      aria-label={pictureWords.connect(names.water(body) ?? body)}
      transform={`translate(${place.x} ${place.y})`}
      onClick={() => beginConnect(body)}
      onKeyDown={press}
    >
      <circle r="12" />
      <path d="M-5 2.5h8M0-1.5l4 4-4 4M5-4h-8" />
    </g>
  );
}

function rimOf({ storeys }: Scene, body: string): Point | null {
  for (const { systems } of storeys)
    for (const { x, y, vessels } of systems) {
      const vessel = vessels.find((one: Vessel) => one.body.id === body);
      if (vessel !== undefined) return { x: x + vessel.x + vessel.width, y: y + vessel.y + vessel.height * 0.5 };
    }
  return null;
}

function SceneDrawing({
  scene,
  site,
  layers,
}: {
  readonly scene: Scene;
  readonly site: Site;
  readonly layers: Layers;
}) {
  return (
    <>
      <BelowFloor below={scene.below} layers={layers} />
      {scene.storeys.map((storey) => (
        <StoreyDrawing key={storey.floor} storey={storey} site={site} width={scene.width} layers={layers} />
      ))}
    </>
  );
}

function StoreyDrawing({
  storey,
  site,
  width,
  layers,
}: {
  readonly storey: Storey;
  readonly site: Site;
  readonly width: number;
  readonly layers: Layers;
}) {
  return (
    <g className="storey">
      <path d={`M0 ${storey.floor}H${width}`} stroke="var(--ink-3)" />
      {storey.walls.map((wall) => (
        <path key={wall.x} d={`M${wall.x} ${wall.top}V${storey.floor}`} stroke="var(--hair)" strokeDasharray="6 4" />
      ))}
      {storey.rooms.map((room) => (
        <PartLink
          key={room.id}
          id={room.id}
          name={`${words.part.room} ${room.words}`}
          box={{ x: room.label.x, y: room.label.y - 12, width: 110, height: 14 }}
        >
          <LabelText label={room.label} className="snd" />
        </PartLink>
      ))}
      {storey.systems.map((system) => (
        <SystemDrawing key={system.id} system={system} site={site} layers={layers} />
      ))}
      {storey.roomSpots.map((spot) => (
        <g key={spot.part.id}>
          <Leader label={spot.label} />
          <SpotDrawing spot={spot} site={site} />
        </g>
      ))}
    </g>
  );
}
