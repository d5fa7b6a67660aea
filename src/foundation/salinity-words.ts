/**
 * The three ways in which people write salinity, read but not yet converted: conversion needs the equation of state,
 * which lives in the science room.
 */

import type { Result } from "./problem.ts";
import { failure, success } from "./problem.ts";
import { parseQuantity } from "./quantity.ts";

export type WrittenSalinity =
  | { readonly kind: "practical"; readonly salinity: number }
  /** Density against pure water, both at the reference temperature. */
  | {
      readonly kind: "specific-gravity";
      readonly specificGravity: number;
      readonly referenceC: number;
      readonly referenceGiven: boolean;
    }
  | {
      readonly kind: "conductivity";
      readonly mSPerCm: number;
      readonly temperatureC: number;
      readonly temperatureGiven: boolean;
    };

const HINT = "write a salinity like 35 ppt, 1.0264 SG at 25 degC or 53.1 mS/cm at 25 degC";
const USUAL_REFERENCE_C = 25;

function referenceOf(text: string | undefined): Result<number> {
  if (text === undefined) return success(USUAL_REFERENCE_C);
  const temperature = parseQuantity(text, "temperature", { min: 0, max: 40 });
  return temperature.ok ? success(temperature.value.value) : temperature;
}

/** Reads `35 ppt`, `1.0264 SG at 20 degC`, `53.1 mS/cm at 25 degC`; a temperature left out is 25 degC. */
export function parseSalinity(text: string): Result<WrittenSalinity> {
  const [amount, at, ...more] = text.split(/\s+at\s+|\s*@\s*/i);
  if (more.length > 0) return failure("salinity/two-references", `'${text}' has more than one 'at'`, HINT);
  const number = Number.parseFloat(amount);
  if (/^\s*[\d.]+\s*$/.test(amount)) {
    return failure(
      "quantity/unit-missing",
      `'${text}' has no unit: it could be ${number > 2 ? "ppt or mS/cm" : "SG or ppt"}`,
      HINT,
    );
  }
  const reference = referenceOf(at);
  if (!reference.ok) return reference;
  if (/sg\s*$/i.test(amount)) {
    const gravity = parseQuantity(amount, "specific gravity", { min: 0.99, max: 1.06 });
    if (!gravity.ok) return gravity;
    const specificGravity = gravity.value.value;
    return success({
      kind: "specific-gravity",
      specificGravity,
      referenceC: reference.value,
      referenceGiven: at !== undefined,
    });
  }
  if (/s\s*\/\s*c?m\s*$/i.test(amount)) {
    const conductivity = parseQuantity(amount, "conductivity", { aboveZero: true, max: 90 });
    if (!conductivity.ok) return conductivity;
    return success({
      kind: "conductivity",
      mSPerCm: conductivity.value.value,
      temperatureC: reference.value,
      temperatureGiven: at !== undefined,
    });
  }
  const practical = parseQuantity(amount, "salinity units");
  if (!practical.ok) return failure(practical.problem.code, practical.problem.message, HINT);
  if (at !== undefined) return failure("salinity/needless-reference", `'${text}': ppt needs no temperature`, HINT);
  return success({ kind: "practical", salinity: practical.value.value });
}
