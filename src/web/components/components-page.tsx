import type { ReactNode } from "react";
import type { Known } from "../app/store.ts";
import { componentWords } from "../words/components.ts";
import "./components.css";
import { ButtonsShown, ChoicesShown, FieldsShown, SliderShown, TallyShown, VerdictsShown } from "./controls-shown.tsx";
import {
  EmptyShown,
  LoadingShown,
  OfflineShown,
  PartialShown,
  RowsShown,
  WorkShown,
  WrongShown,
} from "./states-shown.tsx";
import { Strokes } from "./strokes.tsx";
import { GroundShown, MeaningShown, MotionShown, SpaceShown, TypeShown } from "./tokens-shown.tsx";

/** The real parts of the app in every state, so that a change to one is seen in all its states at once. */
export function ComponentsPage({ known }: { readonly known: Known }) {
  return (
    <>
      <h1 className="say">{componentWords.title}</h1>
      <p className="then">{componentWords.note}</p>
      <div className="specimen">
        <Shown title={componentWords.type}>
          <TypeShown />
        </Shown>
        <Shown title={componentWords.verdicts}>
          <VerdictsShown />
        </Shown>
        <Shown title={componentWords.ground}>
          <GroundShown />
        </Shown>
        <Shown title={componentWords.lines}>
          <Strokes />
        </Shown>
        <Shown title={componentWords.meaning}>
          <MeaningShown />
        </Shown>
        <Shown title={componentWords.controls}>
          <ButtonsShown />
        </Shown>
        <Shown title={componentWords.choices}>
          <ChoicesShown />
        </Shown>
        <Shown title={componentWords.fields}>
          <FieldsShown />
        </Shown>
        <Shown title={componentWords.space}>
          <SpaceShown />
        </Shown>
        <Shown title={componentWords.motion}>
          <MotionShown />
        </Shown>
        <Shown title={componentWords.tally} wide>
          <TallyShown />
        </Shown>
        <Shown title={componentWords.rows} wide>
          <RowsShown known={known} />
        </Shown>
        <Shown title={componentWords.slider} wide>
          <SliderShown />
        </Shown>
        <Shown title={componentWords.empty}>
          <EmptyShown />
        </Shown>
        <Shown title={componentWords.loading}>
          <LoadingShown />
        </Shown>
        <Shown title={componentWords.work}>
          <WorkShown />
        </Shown>
        <Shown title={componentWords.partial}>
          <PartialShown />
        </Shown>
        <Shown title={componentWords.wrong}>
          <WrongShown />
        </Shown>
        <Shown title={`${componentWords.offline}, ${componentWords.newer.toLowerCase()}`}>
          <OfflineShown />
        </Shown>
      </div>
    </>
  );
}

function Shown({
  title,
  wide = false,
  children,
}: {
  readonly title: string;
  readonly wide?: boolean;
  readonly children: ReactNode;
}) {
  return (
    <section className={wide ? "wide" : undefined}>
      <h2>{title}</h2>
      {children}
    </section>
  );
}
