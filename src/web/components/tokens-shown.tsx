import { useState } from "react";
import { measure, signedSpan } from "../parts/format.ts";
import { componentWords } from "../words/components.ts";

const { samples } = componentWords;

/** The type of the tokens, each in its own size. */
export function TypeShown() {
  return (
    <ul>
      <li className="pair-row">
        <span className="sd">--t-figure</span>
        <span className="of-figure">{measure(25.4, "\u00b0C", 1)}</span>
      </li>
      <li className="pair-row">
        <span className="sd">--t-say</span>
        <span className="say">{samples.say}</span>
      </li>
      <li className="pair-row">
        <span className="sd">--t-head</span>
        <span className="of-head">{samples.head}</span>
      </li>
      <li className="pair-row">
        <span className="sd">--t-lead</span>
        <span className="of-lead">{samples.lead}</span>
      </li>
      <li className="pair-row">
        <span className="sd">--t-body</span>
        <span>{samples.body}</span>
      </li>
      <li className="pair-row">
        <span className="sd">--t-small</span>
        <span className="sm">
          {samples.small[0]}
          <em className="w">{samples.small[1]}</em>
          {samples.small[2]}
        </span>
      </li>
      <li className="pair-row">
        <span className="sd">--t-sounding</span>
        <span className="sd">{[10, 60, 360, 1440, 4320].map((min) => signedSpan(min).slice(2)).join(", ")}</span>
      </li>
      <li className="pair-row">
        <span className="sd">{samples.figures}</span>
        <span>
          {signedSpan(275)}
          <br />
          {signedSpan(-370)}
          <br />+ {measure(1111.1, "mg/L", 1)}
        </span>
      </li>
    </ul>
  );
}

const STEPS = ["--s1", "--s2", "--s3", "--s4", "--s5", "--s6", "--s7", "--s8", "--touch"];

export function SpaceShown() {
  return (
    <ul>
      {STEPS.map((token) => (
        <li className="pair-row narrow" key={token}>
          <span className="sd">{token}</span>
          <i className="step" style={{ width: `var(${token})` }} />
        </li>
      ))}
    </ul>
  );
}

const GROUND = "paper raised sunk water water-2 land land-ink ink ink-2 ink-3 rule hair link focus".split(" ");
const MEANING = "absorbed handled handed late unseen signal current coast".split(" ");

export function GroundShown() {
  return <Swatches names={GROUND} />;
}

export function MeaningShown() {
  return <Swatches names={MEANING} />;
}

function Swatches({ names }: { readonly names: readonly string[] }) {
  return (
    <ul className="swatches">
      {names.map((name) => (
        <li key={name}>
          <i style={{ background: `var(--${name})` }} />
          <span className="sm">{name}</span>
        </li>
      ))}
    </ul>
  );
}

/** Two marks that travel when told to, one in each of the two times; with reduced motion they are there at once. */
export function MotionShown() {
  const [there, setThere] = useState(false);
  return (
    <>
      {["--quick", "--settle"].map((token) => (
        <div className="pair-row" key={token}>
          <span className="sd">{token}</span>
          <span className={there ? "track there" : "track"}>
            <i style={{ transitionDuration: `var(${token})` }} />
          </span>
        </div>
      ))}
      <p className="sm">{componentWords.motionNote}</p>
      <button className="btn" type="button" onClick={() => setThere(!there)}>
        {componentWords.move}
      </button>
    </>
  );
}
