import type { Body, Site } from "../../server/contract/index.ts";
import { measure } from "../parts/format.ts";
import { startWords as words } from "../words/start.ts";

/** A display of 1000 L is drawn so wide; others by the cube root of their water. */
const WIDTH_AT_1000_L = 200;
const LEAST_WIDTH = 44;
const MOST_WIDTH = 300;
const GAP = 12;
const LEGS = 22;

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A quick section through each tank: display over sump, its reservoir beside, in rough scale to each other. */
export function Sketch({ site }: { readonly site: Site }) {
  const scale = site.systems.length === 1 ? 1.6 : site.systems.length < 4 ? 1 : 0.7;
  return (
    <div className="sketch" role="img" aria-label={words.sketch(site.systems.map(({ id }) => id).join(", "))}>
      {site.systems.map((system) => (
        <TankSketch
          key={system.id}
          bodies={site.bodies.filter((body) => body.system === system.id)}
          name={system.id}
          scale={scale}
        />
      ))}
    </div>
  );
}

function TankSketch({
  bodies,
  name,
  scale,
}: {
  readonly bodies: readonly Body[];
  readonly name: string;
  readonly scale: number;
}) {
  const display = bodies.find(({ role }) => role === "display");
  if (display === undefined) return null;
  const sump = bodies.find(({ role }) => role === "sump");
  const stores = bodies.filter(({ role }) => role === "reservoir" || role === "container");
  const top = boxOf(display, scale, 0, 20, 0.62);
  const below = top.y + top.height + LEGS;
  const under = sump === undefined ? null : boxOf(sump, scale, 0, below, 0.62);
  let right = under === null ? 0 : under.width + GAP;
  const beside = stores.map((store) => {
    const box = boxOf(store, scale, right, 0, 1.15);
    right += box.width + GAP / 2;
    return { store, box };
  });
  const tallest = Math.max(0, under?.height ?? 0, ...beside.map(({ box }) => box.height));
  const floor = tallest === 0 ? top.y + top.height : below + tallest;
  const width = Math.max(top.width, right, 8 * name.length) + 2;
  return (
    <svg width={width} height={floor + 18} viewBox={`-1 0 ${width} ${floor + 18}`} aria-hidden="true">
      <text className="water-name" x="0" y="12">
        {name}
      </text>
      <Vessel box={top} />
      <text className="litres" x={top.x + 8} y={top.y + top.height / 2 + 8}>
        {measure(display.volumeL, "L")}
      </text>
      {under !== null && <Vessel box={{ ...under, y: floor - under.height }} />}
      {beside.map(({ store, box }) => (
        <Vessel key={store.id} box={{ ...box, y: floor - box.height }} isDark />
      ))}
      {under !== null && sump !== undefined && (
        <text className="litres" x={under.x + 8} y={floor - under.height / 2 + 6}>
          {measure(sump.volumeL, "L")}
        </text>
      )}
      <path className="ground" d={`M-1 ${floor + 4}h${width}`} />
    </svg>
  );
}

function boxOf(body: Body, scale: number, x: number, y: number, heightShare: number): Box {
  const scaled = scale * WIDTH_AT_1000_L * Math.cbrt(body.volumeL / 1000);
  const isStore = body.role === "reservoir" || body.role === "container";
  const width = isStore
    ? Math.min(MOST_WIDTH, Math.max(14, 0.62 * scaled))
    : Math.min(MOST_WIDTH, Math.max(LEAST_WIDTH, scaled));
  return { x, y, width, height: width * heightShare };
}

/** Glass open at the top, with water in it. */
function Vessel({ box: { x, y, width, height }, isDark = false }: { readonly box: Box; readonly isDark?: boolean }) {
  const surface = y + Math.max(3, 0.1 * height);
  return (
    <>
      <rect className={isDark ? "wet store" : "wet"} x={x} y={surface} width={width} height={y + height - surface} />
      <path className="surface" d={`M${x} ${surface}h${width}`} />
      <path className="glass" d={`M${x} ${y}v${height}h${width}v${-height}`} />
    </>
  );
}
