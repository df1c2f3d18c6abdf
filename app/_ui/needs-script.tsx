/** Said where a form or a button is that only script can send; the style sheet shows the first of a page alone. */
export const NeedsScript = () => (
  <noscript>
    <p className="caution needs-script-note">
      Script is switched off in this browser, and what is changed on this page needs it: nothing that you type or press
      can be sent.
    </p>
  </noscript>
);
