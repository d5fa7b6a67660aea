import type { Label } from "./shapes.ts";

export function LabelText({ label, className }: { readonly label: Label; readonly className: string }) {
  return (
    <text
      x={label.x}
      y={label.y}
      textAnchor={label.anchor}
      className={`${className} ${label.on === "water" ? "halow" : "halo"}`}
    >
      {label.text}
    </text>
  );
}

/** The thin line from a part to its label. */
export function Leader({ label }: { readonly label: Label | null }) {
  if (label?.leader === undefined) return null;
  const { x, from, to } = label.leader;
  return <path className="leader" d={`M${x} ${from}V${to}`} />;
}
