/** What goes with a part that is taken out of a site: its own key, every mention of it, and what can not be without it. */
import type { Node, Pair } from "yaml";
import { isMap, isScalar, isSeq } from "yaml";
import type { NamePlace } from "../build/building.ts";
import type { EditPath, SiteEdit } from "./site-edit.ts";

/** Offset of the first character of every key and plain value, with its path and whether it is a key. */
interface Spot {
  readonly path: EditPath;
  readonly isKey: boolean;
}

export interface TakenOut {
  readonly edits: readonly SiteEdit[];
  /** Parts that go too, because they can not be without it. */
  readonly parts: readonly string[];
}

/**
 * The changes that take parts out, last of the file first, so that none moves what another names.
 *
 * A device or sensor goes with the body that it is in, a flow with either of its ends and with its pump, a pump with its
 * flow, a rule with the
 * last sensor that it looks at or the last thing that it does. What hung from a circuit hangs from where that one hung.
 *
 * @param offsetOf where a place of the loader begins in the text
 */
export function takeOut(
  root: Node,
  names: readonly NamePlace[],
  offsetOf: (entry: NamePlace) => number,
  part: string,
): TakenOut {
  const spots = spotsOf(root);
  const gone = new Set<string>();
  const removed = new Map<string, EditPath>();
  const moved = new Map<string, SiteEdit>();
  const waiting = [part];
  const remove = (path: EditPath): void => void removed.set(path.join("\u0000"), path);
  const goesToo = (path: EditPath): void => {
    const id = String(path[path.length - 1]);
    if (!gone.has(id)) waiting.push(id);
  };
  while (waiting.length > 0) {
    const name = waiting.shift() as string;
    if (gone.has(name)) continue;
    gone.add(name);
    const places = names.filter((entry) => entry.name === name).map((entry) => spots.get(offsetOf(entry)));
    const own = places.find((spot) => spot?.isKey === true && isPart(spot.path));
    for (const spot of places) {
      if (spot === undefined || spot === own) continue;
      mention(root, spot, own?.path ?? null, {
        remove,
        goesToo,
        move: (edit) => moved.set(JSON.stringify(edit), edit),
      });
    }
    if (own === undefined) continue;
    remove(own.path);
    if (own.path[0] === "systems" && own.path.length === 2)
      for (const body of keysAt(root, [...own.path, "bodies"])) goesToo([body]);
    if (own.path[0] === "systems" && own.path.length === 4) {
      const bodies = keysAt(root, own.path.slice(0, 3));
      if (bodies.every((body) => gone.has(body) || waiting.includes(body))) goesToo(own.path.slice(0, 2));
    }
  }
  const paths = [...removed.values()].filter((path) => !isInside(path, removed));
  const edits = [
    ...[...moved.values()].filter((edit) => "path" in edit && !isInside([...edit.path, ""], removed)),
    ...emptied(root, paths).map((path): SiteEdit => ({ op: "remove", path })),
  ];
  return { edits, parts: [...gone].filter((id) => id !== part) };
}

interface Acts {
  remove(path: EditPath): void;
  goesToo(path: EditPath): void;
  move(edit: SiteEdit): void;
}

/** What happens to one mention of a part that is gone. */
function mention(root: Node, { path, isKey }: Spot, own: EditPath | null, acts: Acts): void {
  const last = path[path.length - 1];
  if (path[0] === "systems" && path[2] === "circulation") {
    const flow = path.slice(0, 4);
    acts.remove(flow);
    const pump = last === "by" ? undefined : textAt(root, [...flow, "by"]);
    if (pump !== undefined && pump !== "none") acts.goesToo([pump]);
    return;
  }
  if (path[0] === "rules" && typeof last === "string" && ["when", "until", "do"].includes(String(path[2]))) {
    const held = path.slice(0, 3);
    const others = keysAt(root, held).filter((key) => key !== last && key !== "for");
    if (others.length > 0) acts.remove(path);
    else if (path[2] === "when" || (path[2] === "do" && !keysAt(root, path.slice(0, 2)).includes("notice")))
      acts.goesToo(path.slice(0, 2));
    else acts.remove(held);
    return;
  }
  if (isKey || typeof last === "number") {
    acts.remove(path);
    return;
  }
  if (last === "in" || last === "from" || last === "at") {
    acts.goesToo(path.slice(0, 2));
    return;
  }
  const above = own !== null && last === "on" ? textAt(root, [...own, "on"]) : undefined;
  if (above !== undefined) acts.move({ op: "set", path, value: above });
  else acts.remove(path);
}

/** A list or set whose entries all go is taken away whole; entries go from the last to the first. */
function emptied(root: Node, paths: readonly EditPath[]): readonly EditPath[] {
  const byHolder = new Map<string, EditPath[]>();
  for (const path of paths) {
    const holder = path.slice(0, -1).join("\u0000");
    byHolder.set(holder, [...(byHolder.get(holder) ?? []), path]);
  }
  const whole = [...byHolder.values()].flatMap((group) => {
    const holder = group[0].slice(0, -1);
    const node = nodeAt(root, holder);
    const count = isMap(node) || isSeq(node) ? node.items.length : 0;
    return holder.length > 0 && !isPart(group[0]) && count === group.length ? [holder] : group;
  });
  return [...whole].sort((a, b) => Number(b[b.length - 1]) - Number(a[a.length - 1]) || 0);
}

function isInside(path: EditPath, removed: ReadonlyMap<string, EditPath>): boolean {
  return [...removed.values()].some(
    (other) => other.length < path.length && other.every((key, depth) => key === path[depth]),
  );
}

/** Whether a path is that of a named part, as devices.heater-1 or systems.reef.bodies.sump is. */
function isPart(path: EditPath): boolean {
  const [section, , sub] = path;
  if (section === "systems") return path.length === 2 || (path.length === 4 && sub === "bodies");
  if (section === "power") return path.length === 3;
  return (
    path.length === 2 && ["rooms", "links", "hubs", "devices", "sensors", "rules", "people"].includes(String(section))
  );
}

function spotsOf(root: Node): ReadonlyMap<number, Spot> {
  const spots = new Map<number, Spot>();
  const walk = (node: Node | null, path: EditPath): void => {
    if (isScalar(node)) spots.set(node.range?.[0] ?? -1, { path, isKey: false });
    if (isSeq(node)) for (const [index, item] of node.items.entries()) walk(item as Node, [...path, index]);
    if (!isMap(node)) return;
    for (const { key, value } of node.items as Pair<Node, Node | null>[]) {
      if (!isScalar(key)) continue;
      const inner = [...path, String(key.value ?? "")];
      spots.set(key.range?.[0] ?? -1, { path: inner, isKey: true });
      walk(value, inner);
    }
  };
  walk(root, []);
  return spots;
}

function nodeAt(root: Node, path: EditPath): Node | null {
  let node: Node | null = root;
  for (const key of path) {
    if (isMap(node)) node = (node.get(String(key), true) as unknown as Node | undefined) ?? null;
    else if (isSeq(node)) node = (node.items[Number(key)] as Node | undefined) ?? null;
    else return null;
  }
  return node;
}

function keysAt(root: Node, path: EditPath): readonly string[] {
  const node = nodeAt(root, path);
  return isMap(node) ? node.items.map(({ key }) => (isScalar(key) ? String(key.value) : "")) : [];
}

function textAt(root: Node, path: EditPath): string | undefined {
  const node = nodeAt(root, path);
  return isScalar(node) ? String(node.value) : undefined;
}
