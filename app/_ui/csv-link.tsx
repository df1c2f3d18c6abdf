/**
 * The way a table leaves the page: all of it, with the figures as they are kept. `isOneOfSeveral`: what it is a table of stands on
 * the button, for another one is beside it.
 */
export const CsvLink = (props: {
  readonly href: string;
  /** What it is a table of. */
  readonly of: string;
  readonly isOneOfSeveral?: boolean;
}) => (
  <a href={props.href} download className="button-link no-print">
    {props.isOneOfSeveral === true ? (
      `Download CSV of ${props.of}`
    ) : (
      <>
        Download CSV<span className="visually-hidden"> of {props.of}</span>
      </>
    )}
  </a>
);
