import { useEffect, useState } from "react";
import type { FieldsAnswer } from "../../server/contract/index.ts";
import { api } from "../app/api.ts";

let asked: Promise<FieldsAnswer> | null = null;

/** What can be said about each kind of part; null until it is known. It never changes, so it is asked for once. */
export function useFields(): FieldsAnswer | null {
  const [fields, setFields] = useState<FieldsAnswer | null>(null);
  useEffect(() => {
    let left = false;
    asked ??= api.fields();
    asked.then(
      (answer) => !left && setFields(answer),
      () => {
        asked = null; // asked again by the next sheet that opens
      },
    );
    return () => {
      left = true;
    };
  }, []);
  return fields;
}
