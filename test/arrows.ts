/** Reads who imports whom in src/, and says which look goes where it must not. */
import { posix } from "node:path";
import ts from "typescript";

/** From the ground up; a room may look at those before it. The web app shares the contract, which so stands alone. */
const rooms = "foundation science site rules twin drills planning storage watch server/contract server cli web".split(
  " ",
);
/** These must replay bit for bit (and the contract runs in browsers): no clock, no chance, none of Node's modules. */
const withoutWorld = ["foundation", "science", "site", "rules", "twin", "drills", "server/contract"];
const withoutPackages = ["foundation", "science", "rules", "twin"];
/** Except that the loader reads files, and that the pool and its workers are threads. */
const mayUseNode = /^(site\/read-site-file|drills\/(.+\/)?([\w-]+-)?(pool|worker))\.ts$/;
const clocksAndChance = /^(Math\.random|Date\.now|performance\.now|crypto\.(randomUUID|getRandomValues))$/;

/** Source by path below src/, e.g. "twin/step.ts". */
export type Files = ReadonlyMap<string, string>;

interface Look {
  /** Path below src/ for a file of the house, else the name as written, e.g. "node:fs" or "zod". */
  readonly to: string;
  readonly isInside: boolean;
  /** Whether the file cannot load without it: types vanish, and a deferred import comes later. */
  readonly atLoad: boolean;
}

/** One sentence for each wrong look, then for the first ring of files that need each other to load. */
export function wrongArrows(files: Files): string[] {
  const house = new Map([...files].map(([path, text]) => [path, read(path, text)]));
  const wrong = [...house].flatMap(([path, { looks, uses }]) =>
    [
      ...looks.map((look) => objection(path, look)).filter((reason) => reason !== null),
      ...(withoutWorld.includes(roomOf(path))
        ? uses.map((use) => `uses ${use}: take time and chance as arguments`)
        : []),
    ].map((reason) => `${path} ${reason}`),
  );
  const ring = firstRing(
    new Map([...house].map(([path, { looks }]) => [path, looks.filter((look) => look.atLoad).map((look) => look.to)])),
  );
  return ring === null ? wrong : [...wrong, `ring of imports: ${ring.join(" -> ")}`];
}

function roomOf(path: string): string {
  return rooms.find((room) => path.startsWith(`${room}/`)) ?? "";
}

function read(path: string, text: string): { looks: Look[]; uses: string[] } {
  const looks: Look[] = [];
  const uses: string[] = [];
  const look = (name: ts.Node, atLoad: boolean) => {
    if (!ts.isStringLiteral(name)) return;
    const isInside = name.text.startsWith(".");
    looks.push({ to: isInside ? posix.join(posix.dirname(path), name.text) : name.text, isInside, atLoad });
  };
  const visit = (node: ts.Node): void => {
    if ((ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) && node.moduleSpecifier) {
      look(node.moduleSpecifier, !/^(import|export)\s+type\b/.test(node.getText()));
    } else if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument)) {
      look(node.argument.literal, false);
    } else if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword) {
      look(node.arguments[0], false);
    } else if (ts.isPropertyAccessExpression(node) && clocksAndChance.test(node.getText())) {
      uses.push(node.getText());
    } else if (ts.isNewExpression(node) && node.expression.getText() === "Date" && !node.arguments?.length) {
      uses.push("new Date()");
    }
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true));
  return { looks, uses };
}

/** Why this look is wrong, or null. */
function objection(path: string, { to, isInside }: Look): string | null {
  const from = roomOf(path);
  if (from === "") return "stands in no room that test/arrows.ts knows";
  if (!isInside) {
    if (to.startsWith("node:"))
      return [...withoutWorld, "web"].includes(from) && !mayUseNode.test(path)
        ? `imports ${to}: ${from} must not touch the outside`
        : null;
    return withoutPackages.includes(from) ? `imports the package ${to}: ${from} has none at run time` : null;
  }
  const room = roomOf(to);
  if (room === from || to.startsWith("..")) return null;
  if (from === "web" && room !== "server/contract") return `imports ${to}: web may import only server/contract`;
  if (room === "web" || rooms.indexOf(room) > rooms.indexOf(from)) return `imports upward: ${from} -> ${room} (${to})`;
  if (to !== `${room}/index.ts` && !/(\/|-)worker\.ts$/.test(to)) return `imports past the index of ${room}: ${to}`;
  return null;
}

/** @param needs file -> files that it cannot load without */
function firstRing(needs: ReadonlyMap<string, readonly string[]>): string[] | null {
  const done = new Set<string>();
  const follow = (path: string, trail: readonly string[]): string[] | null => {
    if (trail.includes(path)) return [...trail.slice(trail.indexOf(path)), path];
    if (done.has(path)) return null;
    for (const next of needs.get(path) ?? []) {
      const ring = follow(next, [...trail, path]);
      if (ring !== null) return ring;
    }
    done.add(path);
    return null;
  };
  for (const path of needs.keys()) {
    const ring = follow(path, []);
    if (ring !== null) return ring;
  }
  return null;
}
