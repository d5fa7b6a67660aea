/** Storage: what is kept on disk beside a site file. */
export { appendToJournal, journalFileOf, type Kept, readJournal } from "./journal.ts";
