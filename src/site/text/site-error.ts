/** One thing wrong in a site file: where it is, what is wrong, what would be right. */
export interface SiteError {
  /** Stable, `area/what`, for programs. */
  readonly code: string;
  readonly file: string;
  /** 1-based. */
  readonly line: number;
  readonly column: number;
  /** The part and key it is about, `heater-1.on`; empty for the file as a whole. */
  readonly where: string;
  readonly message: string;
  readonly hint: string;
}

/** Place in a file, 1-based. */
export interface Place {
  readonly line: number;
  readonly column: number;
}

export const FILE_START: Place = { line: 1, column: 1 };

/** Past this many errors a file is not a site file with slips in it. */
const MOST_ERRORS = 200;

/** Collects errors while a file is read; reading goes on, so that all of them are told at once. */
export class Report {
  readonly file: string;
  readonly #errors: SiteError[] = [];

  constructor(file: string) {
    this.file = file;
  }

  error(place: Place, where: string, code: string, message: string, hint: string): void {
    if (this.#errors.length >= MOST_ERRORS) return;
    this.#errors.push({ code, file: this.file, line: place.line, column: place.column, where, message, hint });
  }

  /** True where something is already wrong at a key or under it. */
  concerns(where: string): boolean {
    return this.#errors.some((error) => error.where === where || error.where.startsWith(`${where}.`));
  }

  get clean(): boolean {
    return this.#errors.length === 0;
  }

  /** In file order. */
  get errors(): readonly SiteError[] {
    return [...this.#errors].sort((a, b) => a.line - b.line || a.column - b.column);
  }
}

/** One line for a terminal: `examples/x.yaml:31:9 heater-1.on: no circuit is called 'ringa'; did you mean 'ring-a'?` */
export function formatSiteError(error: SiteError): string {
  const where = error.where === "" ? "" : ` ${error.where}`;
  const hint = error.hint === "" ? "" : `; ${error.hint}`;
  return `${error.file}:${error.line}:${error.column}${where}: ${error.message}${hint}`;
}
