/** The way a table leaves the page: all of it, with the figures as they are kept. */
export const CsvLink = ({ href, of }: { readonly href: string /** What it is a table of. */; readonly of: string }) => (
  <a href={href} download className="button-link no-print">
    Download CSV<span className="visually-hidden"> of {of}</span>
  </a>
);
