/** What is being moved or connected in the picture at the moment: begun by hand, by a key or by a button elsewhere. */
import { useSyncExternalStore } from "react";
import { apply } from "../draft/draft-store.ts";
import { pictureWords } from "../words/site-picture.ts";
import type { Target } from "./targets.ts";

export interface Moving {
  readonly part: string;
  readonly task: "move" | "connect";
  readonly by: "hand" | "keys";
  /** Only its plug is held: only sockets will take it. */
  readonly plugOnly: boolean;
}

/** What came of the last one, to be told at the foot of the picture. */
export interface Said {
  readonly text: string;
  readonly refused: boolean;
}

interface MovingState {
  readonly moving: Moving | null;
  readonly said: Said | null;
}

let state: MovingState = { moving: null, said: null };
const listeners = new Set<() => void>();

function change(next: MovingState): void {
  state = next;
  for (const listener of listeners) listener();
}

export function useMoving(): MovingState {
  return useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => state,
  );
}

export function movingNow(): Moving | null {
  return state.moving;
}

/** Lets a person choose by keyboard or by pressing where a part of the picture goes. */
export function beginMove(part: string): void {
  change({ moving: { part, task: "move", by: "keys", plugOnly: false }, said: null });
}

/** Lets a person choose which water a body shall share its water with. */
export function beginConnect(body: string): void {
  change({ moving: { part: body, task: "connect", by: "keys", plugOnly: false }, said: null });
}

/** A part is held, by a mouse or a finger. */
export function take(part: string, task: Moving["task"], plugOnly: boolean): void {
  change({ moving: { part, task, by: "hand", plugOnly }, said: null });
}

/** Leaves everything as it was. */
export function cancelMove(): void {
  if (state.moving !== null) change({ moving: null, said: { text: pictureWords.left, refused: false } });
}

export function forgetSaid(): void {
  if (state.said !== null) change({ ...state, said: null });
}

/** Puts what is held at a place: one step of the draft. What the check refuses is told, and nothing moves. */
export async function drop(target: Target): Promise<void> {
  change({ moving: null, said: null });
  const outcome = await apply(target.label, target.edits);
  // Something else may be in hand by now: then that has the foot of the picture.
  if (state.moving !== null) return;
  change({
    moving: null,
    said: outcome.made
      ? { text: pictureWords.done(target.label), refused: false }
      : { text: outcome.message, refused: true },
  });
}
