"use client";

import type { Band } from "@/lib/schema/words.ts";
import { BandMark, bandWords } from "../band-mark.tsx";
import { ChoiceLink } from "./choice-link.client.tsx";
import { type CourseDrawing, SmallCourse } from "./small-course.tsx";

/** One cylinder's course with its level and band; leads to its large chart. */
export function CylinderCard(props: {
  readonly cylinder: number;
  readonly href: string;
  readonly isChosen: boolean;
  readonly band: Band | null;
  /** In words. */
  readonly level: string;
  readonly drawing: CourseDrawing;
}) {
  const { cylinder, band, level } = props;
  return (
    <ChoiceLink
      href={props.href}
      className="unit-card"
      label={`Cylinder ${cylinder}: ${level}, ${bandWords[band ?? "never-tested"]}${props.drawing.departure === null ? "" : ", early warning"}`}
      chosen={props.isChosen}
    >
      <span className="unit-card-head">
        <strong>{cylinder}</strong>
        <span>{level}</span>
        <BandMark band={band} />
      </span>
      <SmallCourse drawing={props.drawing} />
    </ChoiceLink>
  );
}
