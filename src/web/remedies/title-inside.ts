/** A title inside a sentence: its article small. Ids and names keep their letters. */
export function titleInside(title: string): string {
  return /^(?:A|An|The|Half|Every|Two|Protection|Urgent) /.test(title)
    ? title.charAt(0).toLowerCase() + title.slice(1)
    : title;
}
