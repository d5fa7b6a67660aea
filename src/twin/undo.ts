/** Keeps what a step of one system changes, so that the step can be taken back where it went past a switching. */
import { BODY_COLUMNS } from "./columns.ts";
import type { SystemModel } from "./model.ts";
import type { Twin } from "./state.ts";

/** Notes bodies and rooms as they are. */
export function keepBefore(twin: Twin, system: SystemModel): void {
  const { undo } = twin.scratch.step;
  let at = 0;
  for (const body of system.bodies) at = copy(twin.bodies, body * BODY_COLUMNS, undo, at, BODY_COLUMNS);
  for (const { from, borrows } of system.carries)
    if (borrows) at = copy(twin.bodies, from * BODY_COLUMNS, undo, at, BODY_COLUMNS);
  copy(twin.rooms, 0, undo, at, twin.rooms.length);
  twin.books?.keep();
}

/** Puts them back. */
export function takeBack(twin: Twin, system: SystemModel): void {
  const { undo } = twin.scratch.step;
  let at = 0;
  for (const body of system.bodies) {
    copy(undo, at, twin.bodies, body * BODY_COLUMNS, BODY_COLUMNS);
    at += BODY_COLUMNS;
  }
  for (const { from, borrows } of system.carries) {
    if (!borrows) continue;
    copy(undo, at, twin.bodies, from * BODY_COLUMNS, BODY_COLUMNS);
    at += BODY_COLUMNS;
  }
  copy(undo, at, twin.rooms, 0, twin.rooms.length);
  twin.books?.takeBack();
}

/** Returns the place after the last that was written. */
function copy(from: Float64Array, fromAt: number, to: Float64Array, toAt: number, count: number): number {
  for (let place = 0; place < count; place++) to[toAt + place] = from[fromAt + place];
  return toAt + count;
}
