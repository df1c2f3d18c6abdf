/** Said where a form is that only script can send. */
export const NeedsScript = () => (
  <noscript>
    <p className="caution">
      Script is switched off in this browser, and this form needs it: what you type here cannot be sent.
    </p>
  </noscript>
);
