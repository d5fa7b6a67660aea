/** Rooms, from what was written of them. */
import { mustHave, parseWindow } from "../../foundation/index.ts";
import { ROOM_KEYS } from "../keys/rooms.ts";
import type { Room } from "../model.ts";
import type { WrittenPart } from "../shape/fields.ts";
import type { Building } from "./building.ts";
import { asFound, takerFor, valuesOf } from "./building.ts";

/** Someone who lives with the tanks: at home at night and at weekends. */
const AT_HOME = ["weekdays 18:00-08:00", "weekends"].map((text) => mustHave(parseWindow(text)));
const USUAL_AIR_M3 = 60;

function checkRoom(building: Building, part: WrittenPart<typeof ROOM_KEYS>, room: Room): void {
  const { written } = part;
  if (room.setBack !== null && room.setBack.holdsC > room.holdsC && written["set-back"] !== undefined) {
    building.error(
      written["set-back"],
      `${room.id}.set-back`,
      "room/set-back",
      `the set-back of ${room.setBack.holdsC} degC is warmer than the ${room.holdsC} degC that the room holds`,
      "a set-back is lower: swap the two",
    );
  }
  if (room.coolsToC !== null && room.coolsToC < room.holdsC && written["cools-to"] !== undefined) {
    building.error(
      written["cools-to"],
      `${room.id}.cools-to`,
      "room/cools-to",
      `cooling to ${room.coolsToC} degC works against heating to ${room.holdsC} degC`,
      "cools-to lies above holds",
    );
  }
}

function buildRoom(building: Building, part: WrittenPart<typeof ROOM_KEYS>): Room {
  const { id, written } = part;
  const take = takerFor(building, id, part.idPlace.line, ROOM_KEYS, written);
  const setBack = take("set-back", null);
  const room: Room = {
    id,
    airM3: take("air", USUAL_AIR_M3),
    holdsC: take("holds", 20),
    setBack:
      setBack === null ? null : { holdsC: setBack.holds?.value ?? 20, during: valuesOf(setBack.during?.value ?? []) },
    coolsToC: take("cools-to", null),
    timeConstantH: take("time-constant", 30),
    climate: take("outside", "temperate-coast"),
    airChangesPerH: take("air-changes", 1.5),
    occupants: take("people", 2),
    occupied: valuesOf(take("occupied", asFound(AT_HOME))),
    floorDrain: take("floor-drain", false),
  };
  checkRoom(building, part, room);
  return room;
}

export function buildRooms(
  building: Building,
  parts: readonly WrittenPart<typeof ROOM_KEYS>[] | undefined,
): readonly Room[] {
  if (parts !== undefined && parts.length > 0) return parts.map((part) => buildRoom(building, part));
  const id = building.enterImplied("room", "room");
  const place = { line: 1, column: 1 };
  return [buildRoom(building, { id, idPlace: place, place, written: {} })];
}
