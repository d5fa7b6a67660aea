/** What plain life itself does to the livestock, circumstance by circumstance. */
import type { Stage } from "./stage.ts";
import type { PlainHarm } from "./types.ts";
import { duration, harmInWords } from "./words.ts";

export function plainHarms(stage: Stage): PlainHarm[] {
  const all = stage.model.systems.map((system) => system.index);
  return stage.model.site.circumstances.flatMap((circumstance) => {
    const { harm, harmWhat } = stage.setting(circumstance, all).normal;
    if (!Number.isFinite(harm.early) || harmWhat === null) return [];
    const minutes = Math.round(harm.early / 60);
    return [
      {
        circumstance: circumstance.id,
        harm_early: minutes,
        harm: `${harmWhat.group}, ${harmWhat.stressor}`,
        finding: `Without any fault, in the circumstance ${circumstance.id}, ${harmInWords(harmWhat)} from ${duration(minutes)} on.`,
      },
    ];
  });
}
