/** A timeline as a picture that stands by itself: drawn anew at a fixed width in the light colours, with its type in it. */
import italicUrl from "@fontsource-variable/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-wght-italic.woff2?url";
import normalUrl from "@fontsource-variable/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-wght-normal.woff2?url";
import type { ReactElement } from "react";
import { flushSync } from "react-dom";
import { createRoot } from "react-dom/client";

/** Width of the lanes, and the room around them, px. */
export const PICTURE_WIDTH = 1200;
const MARGIN = 28;
const HEAD = 76;
const FOOT = 34;
/** Pixels of a PNG for each px. */
const DENSITY = 2;
const FAMILY = "Atkinson Hyperlegible Next";
const FALLBACK = `"${FAMILY}", "Segoe UI", "Noto Sans", "Helvetica Neue", Arial, sans-serif`;
const SVG = "http://www.w3.org/2000/svg";

export interface PictureWords {
  readonly title: string;
  readonly line: string;
  readonly foot: string;
  readonly key: readonly string[];
}

/** The SVG of some lanes, as text. `lanes` must draw one `svg` of PICTURE_WIDTH. */
export async function svgOf(lanes: ReactElement, say: PictureWords): Promise<string> {
  const faces = await Promise.all([face(normalUrl, "normal"), face(italicUrl, "italic")]);
  const stage = document.createElement("div");
  stage.className = "picture-stage";
  document.body.append(stage);
  const root = createRoot(stage);
  try {
    flushSync(() => root.render(lanes));
    const drawn = stage.querySelector("svg");
    if (drawn === null) throw new Error("Nothing was drawn");
    return inLight(() => serialised(drawn, say, faces.join("")));
  } finally {
    root.unmount();
    stage.remove();
  }
}

/** A PNG of such an SVG. */
export async function pngOf(svg: string): Promise<Blob> {
  const image = new Image();
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;
  await image.decode();
  const canvas = document.createElement("canvas");
  canvas.width = image.naturalWidth * DENSITY;
  canvas.height = image.naturalHeight * DENSITY;
  canvas.getContext("2d")?.drawImage(image, 0, 0, canvas.width, canvas.height);
  return new Promise((resolve, reject) =>
    canvas.toBlob((blob) => (blob === null ? reject(new Error("No picture")) : resolve(blob)), "image/png"),
  );
}

/** Hands something to the reader as a file. */
export function save(what: Blob, name: string): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(what);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

/** Reads styles as they are on paper-coloured ground; nothing is painted in between. */
function inLight<T>(read: () => T): T {
  const { dataset } = document.documentElement;
  const before = dataset.theme;
  dataset.theme = "light";
  try {
    return read();
  } finally {
    if (before === undefined) delete dataset.theme;
    else dataset.theme = before;
  }
}

function serialised(drawn: SVGSVGElement, say: PictureWords, faces: string): string {
  const tokens = getComputedStyle(document.documentElement);
  const resolve = (text: string): string =>
    text.replace(/var\((--[\w-]+)\)/g, (_, name: string) => tokens.getPropertyValue(name).trim());
  const lanes = drawn.cloneNode(true) as SVGSVGElement;
  const [from, to] = [drawn, lanes].map((each) => [...each.querySelectorAll("*")]);
  for (const [i, copy] of to.entries()) standAlone(copy, from[i], resolve);
  const width = PICTURE_WIDTH + 2 * MARGIN;
  const height = Number(drawn.getAttribute("height")) + HEAD + FOOT;
  for (const name of ["class", "role", "aria-label"]) lanes.removeAttribute(name);
  lanes.setAttribute("x", String(MARGIN));
  lanes.setAttribute("y", String(HEAD));
  const picture = element("svg", { xmlns: SVG, width, height, viewBox: `0 0 ${width} ${height}` });
  const style = element("style", {});
  style.textContent = faces;
  const defs = element("defs", {});
  for (const pattern of document.querySelectorAll(".sprite pattern")) {
    const copy = pattern.cloneNode(true) as Element;
    for (const each of [copy, ...copy.querySelectorAll("*")]) resolveAll(each, resolve);
    defs.append(copy);
  }
  const ink = resolve("var(--ink)");
  const soft = resolve("var(--ink-2)");
  const line = (x: number, y: number, text: string, size: number, weight: number, fill: string): Element => {
    const made = element("text", { x, y, "font-size": size, "font-weight": weight, fill });
    made.textContent = text;
    return made;
  };
  picture.append(
    style,
    defs,
    element("rect", { width, height, fill: resolve("var(--paper)") }),
    line(MARGIN, 32, say.title, 22, 560, ink),
    line(MARGIN, 54, say.line, 13, 400, soft),
    ...keyOf(say.key, width - MARGIN, resolve),
    lanes,
    line(MARGIN, height - 12, say.foot, 12, 400, soft),
  );
  picture.setAttribute("font-family", FALLBACK);
  return `<?xml version="1.0" encoding="UTF-8"?>\n${new XMLSerializer().serializeToString(picture)}`;
}

/** How to read the strokes, at the right of the head: true, sensed, if nobody acts. */
function keyOf(names: readonly string[], right: number, resolve: (text: string) => string): readonly Element[] {
  const strokes: readonly Readonly<Record<string, string | number>>[] = [
    { stroke: "var(--ink)", "stroke-width": 2 },
    { stroke: "var(--signal)", "stroke-width": 1.5 },
    { stroke: "var(--ink-3)", "stroke-width": 1.5, "stroke-dasharray": "5 4" },
  ];
  return names.flatMap((name, i) => {
    const y = 22 + 15 * i;
    const text = element("text", { x: right - 190, y: y + 4, "font-size": 12, fill: resolve("var(--ink-2)") });
    text.textContent = name;
    const drawn = element("path", { d: `M${right - 222} ${y}h26`, fill: "none", ...strokes[i] });
    resolveAll(drawn, resolve);
    return [drawn, text];
  });
}

const TEXT_STYLES = ["fill", "font-size", "font-weight", "font-style"] as const;
const HALO_STYLES = ["paint-order", "stroke", "stroke-width", "stroke-linejoin"] as const;

/** What a class or a token says of an element, written on the element itself. */
function standAlone(copy: Element, original: Element, resolve: (text: string) => string): void {
  resolveAll(copy, resolve);
  if (copy.localName === "text" || copy.localName === "tspan") {
    const style = getComputedStyle(original);
    const halo = original.classList.contains("halo") ? HALO_STYLES : [];
    for (const name of [...TEXT_STYLES, ...halo]) copy.setAttribute(name, style.getPropertyValue(name));
  }
  copy.removeAttribute("class");
}

function resolveAll(each: Element, resolve: (text: string) => string): void {
  for (const { name, value } of [...each.attributes])
    if (value.includes("var(")) each.setAttribute(name, resolve(value));
}

function element(name: string, attributes: Readonly<Record<string, string | number>>): Element {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) if (key !== "xmlns") made.setAttribute(key, String(value));
  return made;
}

/** The type of the picture, inside it; where it cannot be had, the reader's own. */
async function face(url: string, style: string): Promise<string> {
  try {
    const bytes = new Uint8Array(await (await fetch(url)).arrayBuffer());
    let text = "";
    for (const byte of bytes) text += String.fromCharCode(byte);
    return `@font-face{font-family:"${FAMILY}";font-style:${style};font-weight:200 800;src:url(data:font/woff2;base64,${btoa(text)}) format("woff2")}`;
  } catch {
    return "";
  }
}
