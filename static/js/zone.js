// The time zone of this browser is chosen where nobody has chosen one yet.
{
  const list = /** @type {HTMLSelectElement | null} */ (/** @type {unknown} */ (document.querySelector("select[data-guess]")));
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  if (list && [...list.options].some((option) => option.value === zone)) list.value = zone;
}
