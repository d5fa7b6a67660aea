/** Plain tables for people: columns as wide as their widest cell. */
export type Align = "left" | "right";

export function table(rows: readonly (readonly string[])[], aligns: readonly Align[]): string {
  const widths = aligns.map((_, column) => Math.max(...rows.map((row) => [...(row[column] ?? "")].length)));
  return rows
    .map((row) =>
      aligns
        .map((align, column) => {
          const cell = row[column] ?? "";
          const gap = " ".repeat(widths[column] - [...cell].length);
          return align === "right" ? gap + cell : cell + gap;
        })
        .join("  ")
        .trimEnd(),
    )
    .join("\n");
}

/** Breaks text at spaces, each line at most so wide. */
export function wrap(text: string, width: number, indent: string): string {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(" ")) {
    if (line !== "" && line.length + word.length + 1 > width - indent.length) {
      lines.push(line);
      line = word;
    } else line = line === "" ? word : `${line} ${word}`;
  }
  return [...lines, line].map((one) => indent + one).join("\n");
}
