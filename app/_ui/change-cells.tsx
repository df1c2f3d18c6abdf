/** One thing that a change is of, as it was and as it becomes, ready to be shown. */
export interface ChangeLine {
  readonly column: string;
  readonly before: string;
  readonly after: string;
}

/** What changes, cell by cell: "plan, %: 20 → 25". */
export function ChangeCells({ changes }: { readonly changes: readonly ChangeLine[] }) {
  return (
    <ul className="change-cells">
      {changes.map(({ column, before, after }) => (
        <li key={column}>
          {column}: <del>{before}</del>
          <span aria-hidden="true"> → </span>
          <span className="visually-hidden">, then </span>
          <ins>{after}</ins>
        </li>
      ))}
    </ul>
  );
}
