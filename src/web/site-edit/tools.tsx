import { useEffect, useState } from "react";
import type { Site } from "../../server/contract/index.ts";
import { address, go } from "../app/router.tsx";
import { redo, undo, useDraft } from "../draft/draft-store.ts";
import { draftWords } from "../words/draft.ts";
import { editWords } from "../words/site-edit.ts";
import { AddDialog } from "./add-dialog.tsx";
import { takeOut } from "./take-out.ts";

/** Add, undo and redo: over the sheet, whatever is chosen. Delete takes the part out that is chosen in the picture. */
export function EditTools({ site, chosen }: { readonly site: Site; readonly chosen: string | null }) {
  const draft = useDraft();
  const [adding, setAdding] = useState(false);
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      const inPicture = event.target instanceof Element && event.target.closest(".place-picture a.part") !== null;
      if (event.key !== "Delete" || chosen === null || !inPicture) return;
      event.preventDefault();
      void takeOut(site, chosen).then((outcome) => outcome.made && go(address("/site"), "replace"));
    };
    addEventListener("keydown", onKey);
    return () => removeEventListener("keydown", onKey);
  }, [site, chosen]);
  if (draft === null) return null;
  const { steps, at } = draft.history;
  const canUndo = at > 0;
  const canRedo = at < steps.length - 1;
  return (
    <div className="edit-tools noprint" role="toolbar" aria-label={editWords.tools}>
      <button className="btn" type="button" onClick={() => setAdding(true)}>
        {editWords.add}
      </button>
      <span className="walk">
        <button
          className="btn"
          type="button"
          aria-disabled={!canUndo}
          title={canUndo ? draftWords.undoWhat(steps[at].label) : undefined}
          onClick={undo}
        >
          {draftWords.undo}
        </button>
        <button
          className="btn"
          type="button"
          aria-disabled={!canRedo}
          title={canRedo ? draftWords.redoWhat(steps[at + 1].label) : undefined}
          onClick={redo}
        >
          {draftWords.redo}
        </button>
      </span>
      {adding && <AddDialog site={site} near={nearestBody(site, chosen)} onClose={() => setAdding(false)} />}
    </div>
  );
}

/** The body that is chosen, or that the chosen part is in. */
function nearestBody(site: Site, chosen: string | null): string | null {
  const device = site.devices.find(({ id }) => id === chosen);
  const sensor = site.sensors.find(({ id }) => id === chosen);
  const at = device?.in ?? sensor?.at ?? chosen;
  return site.bodies.find(({ id }) => id === at)?.id ?? null;
}
