import type { Papers } from "../../server/contract/index.ts";
import { Link } from "../app/router.tsx";
import { figure } from "../parts/format.ts";
import { papersWords } from "../words/papers.ts";
import { words } from "../words.ts";

const say = papersWords.index;

/** The four papers, and what is on each. */
export function PapersIndex({ papers }: { readonly papers: Papers }) {
  const due = papers.proving.items.filter((item) => item.due).length;
  const list = [
    { name: "report", does: say.reportDoes, note: papers.report === null ? say.notRehearsed : "" },
    { name: "set-up", does: say.setUpDoes, note: "" },
    { name: "proving", does: say.provingDoes, note: due === 0 ? "" : say.due(figure(due), due) },
    { name: "key-holder", does: say.keyHolderDoes, note: "" },
  ];
  return (
    <>
      <h1 className="say">{say.say}</h1>
      <ul className="papers-list">
        {list.map(({ name, does, note }) => (
          <li key={name}>
            <h2>
              <Link to={`/papers/${name}`}>{words.frame.paper[name]}</Link>
            </h2>
            <p>{does}</p>
            <p className="sm">{note}</p>
          </li>
        ))}
      </ul>
    </>
  );
}
