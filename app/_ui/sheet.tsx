import { type ReactNode, useId } from "react";

/**
 * A part of a page: a rule of ink on top, a heading, perhaps a second line and controls at its right. `long` lets it
 * break over printed pages.
 */
export function Sheet(props: {
  readonly title?: string;
  readonly note?: ReactNode;
  readonly controls?: ReactNode;
  readonly label?: string;
  readonly long?: boolean;
  readonly className?: string;
  /** A place that links lead to. */
  readonly id?: string;
  readonly children: ReactNode;
}) {
  const headingId = useId();
  const named = props.title === undefined ? { "aria-label": props.label } : { "aria-labelledby": headingId };
  return (
    <section
      {...named}
      className={props.className === undefined ? "sheet" : `sheet ${props.className}`}
      data-long={props.long}
      id={props.id}
    >
      {props.title !== undefined && (
        <div className="sheet-head">
          <div>
            <h2 id={headingId}>{props.title}</h2>
            {props.note !== undefined && <p className="sheet-note">{props.note}</p>}
          </div>
          {props.controls}
        </div>
      )}
      {props.children}
    </section>
  );
}
