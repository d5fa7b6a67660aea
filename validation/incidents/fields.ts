/** Reads fields of a file that people write, and says in words which of them is wrong. */
const MINUTES = { min: 1, h: 60, d: 1440 } as const;

export class Fields {
  readonly #where: string;
  readonly #map: Readonly<Record<string, unknown>>;
  readonly #read = new Set<string>();

  constructor(where: string, value: unknown) {
    if (typeof value !== "object" || value === null || Array.isArray(value)) throw new Error(`${where}: write keys`);
    this.#where = where;
    this.#map = value as Record<string, unknown>;
  }

  /** The value as it stands; undefined where the key is not there. */
  any(key: string): unknown {
    this.#read.add(key);
    return this.#map[key];
  }

  text(key: string): string {
    const value = this.any(key);
    return typeof value === "string" ? value : this.#wrong(key, "a text");
  }

  number(key: string): number {
    const value = this.any(key);
    return typeof value === "number" ? value : this.#wrong(key, "a number");
  }

  word<Word extends string>(key: string, words: readonly Word[]): Word {
    const found = words.find((word) => word === this.any(key));
    return found ?? this.#wrong(key, `one of ${words.join(", ")}`);
  }

  list(key: string): readonly unknown[] {
    const value = this.any(key);
    return Array.isArray(value) ? value : this.#wrong(key, "a list");
  }

  words<Word extends string>(key: string, words: readonly Word[]): readonly Word[] {
    return this.list(key).map(
      (value) => words.find((word) => word === value) ?? this.#wrong(key, `a list of ${words.join(", ")}`),
    );
  }

  texts(key: string): readonly string[] {
    return this.list(key).map((value) => (typeof value === "string" ? value : this.#wrong(key, "a list of texts")));
  }

  /** `8.5 h`, `10 min` or `5 d`, in minutes. */
  time(key: string): number {
    const found = /^(\d+(?:\.\d+)?) (min|h|d)$/.exec(String(this.any(key)));
    return found === null
      ? this.#wrong(key, "a time like 8.5 h")
      : Number(found[1]) * MINUTES[found[2] as keyof typeof MINUTES];
  }

  within(key: string): Fields {
    return new Fields(`${this.#where} ${key}`, this.any(key));
  }

  /** Whether the key is there. */
  has(key: string): boolean {
    return key in this.#map;
  }

  /** Names of all keys. */
  keys(): readonly string[] {
    return Object.keys(this.#map);
  }

  /** To be called when all is read: a key that nobody asked for is a slip of the pen. */
  end(): void {
    const strange = Object.keys(this.#map).filter((key) => !this.#read.has(key));
    if (strange.length > 0) throw new Error(`${this.#where}: no such key: ${strange.join(", ")}`);
  }

  #wrong(key: string, wanted: string): never {
    throw new Error(`${this.#where}: ${key} is ${JSON.stringify(this.#map[key])}; write ${wanted}`);
  }
}
