/** What the picture of the site is made of: shapes in px, as the layout places them and the drawing draws them. */
import type { Body, Device, Person, Sensor } from "../../server/contract/index.ts";

/** Which layers of the picture are on show. */
export interface Layers {
  readonly water: boolean;
  readonly power: boolean;
  readonly messages: boolean;
  readonly people: boolean;
}

/** Inside a system y = 0 is the stand that the displays are on; above it is negative. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface Label {
  readonly text: string;
  readonly x: number;
  /** Baseline. */
  readonly y: number;
  readonly anchor: "start" | "middle" | "end";
  /** What it is written on: water and paper need halos of their own. */
  readonly on: "water" | "paper";
  /** A thin line from the part to its label, where they stand apart. */
  readonly leader?: { readonly x: number; readonly from: number; readonly to: number };
}

/** A device or sensor in its place. `x`, `y` are the middle of its symbol. */
export interface Spot {
  readonly part: Device | Sensor;
  readonly x: number;
  readonly y: number;
  /** Size of its symbol. */
  readonly width: number;
  readonly height: number;
  readonly label: Label | null;
  /** What it reads in the settled life, under its label. */
  readonly reading?: string;
  readonly tier: "upper" | "lower";
}

/** A body of water with its glass. `waterY` is its surface. */
export interface Vessel extends Box {
  readonly body: Body;
  readonly waterY: number;
  readonly tier: "upper" | "lower" | "store";
  readonly hasRock: boolean;
  /** Its name, large in a display. */
  readonly caption: (Label & { readonly large: boolean }) | null;
  /** How much water it holds. */
  readonly note: Label | null;
}

export interface Pipe {
  readonly id: string;
  readonly d: string;
  readonly arrow: { readonly x: number; readonly y: number; readonly way: "up" | "down" | "left" | "right" } | null;
  readonly label: Label | null;
  /** What the label names, where it can be chosen: the pump, or the flow. */
  readonly partId: string | null;
}

/** One system drawn: its own left edge is x = 0, its stand y = 0. */
export interface SystemLayout {
  readonly id: string;
  readonly room: string;
  readonly vessels: readonly Vessel[];
  readonly spots: readonly Spot[];
  readonly pipes: readonly Pipe[];
  readonly width: number;
  /** Upper edge of what hangs over the displays; negative. */
  readonly top: number;
  /** Where the floor is. */
  readonly bottom: number;
}

/** A system where it stands in the whole picture. */
export interface PlacedSystem extends SystemLayout {
  readonly x: number;
  /** Where its stand lies. */
  readonly y: number;
  /** How closely it is drawn: an index from roomy to tight. */
  readonly density: number;
}

/** Systems side by side on one floor. */
export interface Storey {
  readonly systems: readonly PlacedSystem[];
  readonly rooms: readonly { readonly id: string; readonly words: string; readonly label: Label }[];
  /** Between rooms. */
  readonly walls: readonly { readonly x: number; readonly top: number }[];
  readonly floor: number;
  /** Sensors of the rooms themselves: on the floor, or in the air beside the room's name. */
  readonly roomSpots: readonly Spot[];
}

/** A cable from a device down to its circuit: straight, or aside first where the names of the circuits stand in its way. */
export interface Drop {
  readonly part: string;
  /** Where it meets the circuit. */
  readonly x: number;
  readonly d: string;
}

/** A circuit under one storey: a line with a dot for each socket that is used there. */
export interface Lane {
  readonly id: string;
  readonly storey: number;
  readonly y: number;
  readonly from: number;
  readonly to: number;
  readonly note: string;
  /** Its name, and beside or under it what it carries. */
  readonly labels: readonly (Label & { readonly small: boolean })[];
  /** Cables that come down to it. */
  readonly drops: readonly Drop[];
  /** Sensors on the circuit itself. */
  readonly sensors: readonly { readonly sensor: Sensor; readonly x: number; readonly label: Label | null }[];
  /** Where it hangs from another circuit of the same storey. */
  readonly parent: { readonly x: number; readonly y: number } | null;
}

/** A hub, battery or link below the floor, or the watch outside the house. */
export interface Station extends Box {
  readonly id: string;
  readonly kind: "hub" | "battery" | "link" | "silence";
  /** For ears; on the picture they may be shortened. */
  readonly words: string;
  readonly notes: readonly Label[];
}

/** Somebody of the ladder: `x`, `y` is the middle of the head. */
export interface Rung {
  readonly person: Person;
  readonly x: number;
  readonly y: number;
  readonly name: Label;
  readonly words: string;
  readonly notes: readonly Label[];
  /** The way from the one before, with how long that one is given; null for the first and for who is on no ladder. */
  readonly step: { readonly d: string; readonly arrow: Pipe["arrow"]; readonly wait: Label } | null;
}

export interface Wire {
  readonly id: string;
  readonly kind: "power" | "message";
  readonly d: string;
  readonly dot: { readonly x: number; readonly y: number } | null;
  readonly arrow: { readonly x: number; readonly y: number } | null;
}

/** What lies below the floor. */
export interface Below {
  readonly lanes: readonly Lane[];
  readonly stations: readonly Station[];
  readonly ladder: readonly Rung[];
  readonly wires: readonly Wire[];
  /** Lowest point, px. */
  readonly bottom: number;
}

/** The whole picture. */
export interface Scene {
  readonly storeys: readonly Storey[];
  readonly below: Below;
  readonly width: number;
}
