/** The ladder of people whom a message climbs until someone takes the matter. docs/decisions/0008. */
import type { LadderStep, Person, Skill } from "../site/index.ts";
import { arrives, awayOf, hasSkill, readAt, type Scene, type Told, type Urgency } from "./people.ts";

/** Someone who cannot end it alone takes this long to call on, s. */
const CALL_ON_S = 300;

export interface Response {
  readonly told: readonly Told[];
  /** First reading by anyone, s; Infinity: nobody within reach. */
  readonly toldS: number;
  readonly toldBy: string | null;
  /** When hands are on the fault, s; Infinity: never. */
  readonly actingS: number;
  readonly actor: string | null;
  readonly words: readonly { readonly tS: number; readonly person: string; readonly text: string }[];
}

export const NOBODY: Response = {
  told: [],
  toldS: Number.POSITIVE_INFINITY,
  toldBy: null,
  actingS: Number.POSITIVE_INFINITY,
  actor: null,
  words: [],
};

/** A message that starts to climb. */
export interface Message {
  readonly sentS: number;
  readonly urgency: Urgency;
  /** What it takes to end the matter. */
  readonly needs: Skill;
  /** It is the hub's siren, which is heard in the building only. */
  readonly siren: boolean;
  readonly steps: readonly LadderStep[];
}

/**
 * Climbs the ladder: each step is told when the one before has not taken it in time; whoever can end the fault and gets
 * there first does. A person who can only pass it on calls the keeper.
 */
export function climb(scene: Scene, message: Message): Response {
  const climbing = new Climbing(scene, message);
  let stepS = message.sentS;
  for (const step of message.steps) {
    stepS += step.afterMin * 60;
    if (climbing.takenS <= stepS) break;
    climbing.tell(step.person, stepS);
  }
  return climbing.response();
}

class Climbing {
  /** When the first who is not away has taken it, s. */
  takenS = Number.POSITIVE_INFINITY;
  readonly #scene: Scene;
  readonly #message: Message;
  readonly #told: Told[] = [];
  readonly #words: Response["words"][number][] = [];
  readonly #knows = new Map<string, number>();
  #actingS = Number.POSITIVE_INFINITY;
  #actor: string | null = null;

  constructor(scene: Scene, message: Message) {
    this.#scene = scene;
    this.#message = message;
  }

  tell(id: string, atS: number): void {
    const person = this.#scene.site.people.find((one) => one.id === id);
    if (!person) return;
    const read = readAt(this.#scene, person, atS, this.#message.urgency, this.#message.siren);
    if (read) this.#hears(person, read);
    else this.#words.push({ tS: atS, person: id, text: `${id} does not get the message` });
  }

  #hears(person: Person, read: Told): void {
    this.#told.push(read);
    if ((this.#knows.get(person.id) ?? Number.POSITIVE_INFINITY) <= read.readS) return;
    this.#knows.set(person.id, read.readS);
    const able = hasSkill(person, this.#message.needs) && !this.#scene.unsure.has(person.id);
    const comesS = able ? arrives(this.#scene, person, read.readS) : Number.POSITIVE_INFINITY;
    if (comesS <= this.#scene.horizonS) this.#takes(person, read.readS, comesS);
    else this.#passOn(person, read.readS);
  }

  #takes(person: Person, atS: number, comesS: number): void {
    if (awayOf(this.#scene, person) === null) this.takenS = Math.min(this.takenS, atS);
    if (comesS >= this.#actingS) return;
    this.#actingS = comesS;
    this.#actor = person.id;
  }

  #passOn(person: Person, atS: number): void {
    if (!person.can.includes("call keeper") && !person.can.includes("everything")) return;
    this.#words.push({ tS: atS, person: person.id, text: `${person.id} cannot end it alone and calls on` });
    for (const other of this.#scene.site.people) {
      if (other.id === person.id || !hasSkill(other, this.#message.needs) || this.#knows.has(other.id)) continue;
      const read = readAt(this.#scene, { ...other, reachedBy: ["call"] }, atS + CALL_ON_S, "urgent", false);
      if (read) this.#hears(other, read);
    }
  }

  response(): Response {
    const told = this.#told.toSorted((a, b) => a.readS - b.readS);
    const first = told[0];
    return {
      told,
      toldS: first?.readS ?? Number.POSITIVE_INFINITY,
      toldBy: first?.person ?? null,
      actingS: this.#actingS,
      actor: this.#actor,
      words: this.#words,
    };
  }
}
