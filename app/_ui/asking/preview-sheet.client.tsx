"use client";

import { Button } from "@mantine/core";
import { type ReactNode, useEffect, useRef } from "react";
import type { BandsPreview } from "../../_jobs/preview-bands.ts";
import { AppLink } from "../app-link.client.tsx";
import { BandMark } from "../band-mark.tsx";
import { ChangeCells, type ChangeLine } from "../change-cells.tsx";
import { useFormats } from "../formats.client.tsx";
import { unitAddress } from "../unit-address.ts";
import { previewFinding, windowMoves } from "./preview-words.ts";

const shownUnits = 60;

/** What a change would do to the units, and the two ways on. */
export function PreviewSheet(props: {
  readonly preview: BandsPreview;
  /** What was read from the fields that were changed. */
  readonly reads: readonly ChangeLine[];
  /** What stands beside the buttons. */
  readonly note: ReactNode;
  /** What the buttons say. */
  readonly save: string;
  readonly leave: string;
  readonly onSave: () => void;
  readonly onLeave: () => void;
}) {
  const f = useFormats();
  const heading = useRef<HTMLHeadingElement>(null);
  // The button that was pressed is above; what it brought is read from here.
  useEffect(() => heading.current?.focus(), []);
  const { changes, notAssessed, warnings } = props.preview;
  const moved = changes.filter(({ before, after }) => before?.band !== after.band);
  return (
    <section className="preview-sheet" aria-labelledby="preview-head">
      <h2 id="preview-head" ref={heading} tabIndex={-1}>
        {previewFinding(f, props.preview)}
      </h2>
      {props.reads.length > 0 && (
        <>
          <p className="second">Read from the fields, as it is and as it would be:</p>
          <ChangeCells changes={props.reads} />
        </>
      )}
      {moved.length > 0 && (
        <ul className="band-changes" aria-label="Units that change their band">
          {moved.slice(0, shownUnits).map((change) => (
            <li key={change.unit}>
              <AppLink href={unitAddress(change.unit)}>{change.unit}</AppLink>
              <span className="band-step">
                <BandMark band={change.before?.band ?? null} tested />
                <span aria-hidden="true">→</span>
                <span className="visually-hidden">then</span>
                <BandMark band={change.after.band} tested />
              </span>
              {windowMoves(f, change).map((words) => (
                <span key={words} className="second small">
                  {words}
                </span>
              ))}
            </li>
          ))}
        </ul>
      )}
      {moved.length > shownUnits && <p className="second">And {f.number(moved.length - shownUnits)} more.</p>}
      {warnings.map((words) => (
        <p key={words} className="caution">
          {words}
        </p>
      ))}
      {notAssessed.map((words) => (
        <p key={words} className="second">
          {words}.
        </p>
      ))}
      <div className="form-buttons">
        <Button onClick={props.onSave}>{props.save}</Button>
        <Button variant="default" onClick={props.onLeave}>
          {props.leave}
        </Button>
        <p className="second">{props.note}</p>
      </div>
    </section>
  );
}
