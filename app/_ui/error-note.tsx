import type { ReactNode } from "react";

/** What happened, what was kept, what to do; the action stands below. */
export function ErrorNote(props: {
  readonly happened: string;
  readonly kept?: string;
  readonly todo?: string;
  readonly children?: ReactNode;
}) {
  return (
    <div className="error-note" data-boxed="true" role="alert">
      <p>
        <strong>{props.happened}</strong>
      </p>
      {props.kept !== undefined && <p>{props.kept}</p>}
      {props.todo !== undefined && <p>{props.todo}</p>}
      {props.children}
    </div>
  );
}
