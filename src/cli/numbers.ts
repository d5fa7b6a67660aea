/** Parsers of numbers in options. */
import { InvalidArgumentError } from "commander";

export function whole(low: number, high: number): (text: string) => number {
  return (text) => {
    const value = Number(text);
    if (!Number.isInteger(value) || value < low || value > high)
      throw new InvalidArgumentError(`Give a whole number from ${low} to ${high}.`);
    return value;
  };
}

export function decimal(low: number, high: number): (text: string) => number {
  return (text) => {
    const value = Number(text);
    if (!(value >= low && value <= high)) throw new InvalidArgumentError(`Give a number from ${low} to ${high}.`);
    return value;
  };
}
