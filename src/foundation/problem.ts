/**
 * How anything in the house says that something is wrong: as a value (`Problem`) where wrong input is expected, as a
 * thrown `SlackwaterError` where the caller broke a promise.
 *
 * Codes are stable words of the form `area/what-went-wrong`; programs may compare them, people read the sentences.
 */

/** One thing that is wrong, what is wanted instead, and an example of it. */
export interface Problem {
  readonly code: string;
  /** What is wrong, quoting what was written. No trailing stop. */
  readonly message: string;
  /** What would be right, with an example. No trailing stop. */
  readonly hint: string;
}

/** A value or the reason why there is none. */
export type Result<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problem: Problem };

export function success<T>(value: T): Result<T> {
  return { ok: true, value };
}

export function failure<T>(code: string, message: string, hint: string): Result<T> {
  return { ok: false, problem: { code, message, hint } };
}

/** Base of every error that the house throws. `code` is stable; the text may be improved at any time. */
export class SlackwaterError extends Error {
  readonly code: string;
  readonly hint: string;

  constructor(code: string, message: string, hint = "", options?: { cause?: unknown }) {
    super(message, options);
    this.name = new.target.name;
    this.code = code;
    this.hint = hint;
  }
}

/** What a person wrote cannot be used: a file, a form, an argument. Show message and hint to them. */
export class InputError extends SlackwaterError {}

/** A part that was asked for does not exist. */
export class NotFoundError extends SlackwaterError {}

/** The value of a result, or a thrown `InputError` for callers that cannot go on without it. */
export function mustHave<T>(result: Result<T>): T {
  if (result.ok) return result.value;
  throw new InputError(result.problem.code, result.problem.message, result.problem.hint);
}
