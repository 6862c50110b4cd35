// places.js: which pieces a finding is about, so that they can be lit.

const number_of = (text) => String(text ?? "").split(" ")[0];
const all_pieces = (answer) => [...(answer?.pieces ?? []), ...(answer?.items ?? [])];
const escaped = (text) => text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");

/** Numbers of the pieces that meet at each joint: joint name -> Set. */
export function pieces_of_joints(answer) {
    const joints = new Map();
    const put = (name, number) => {
        if (!joints.has(name)) joints.set(name, new Set());
        joints.get(name).add(number);
    };
    for (const s of answer?.shop?.join?.seams ?? []) for (const side of [s.a, s.b]) if (side) put(s.joint, number_of(side));
    const known = new Set(all_pieces(answer).map((p) => p.number));
    for (const j of answer?.shop?.fit?.joints ?? [])
        for (const s of j.shares ?? []) if (known.has(number_of(s.name))) put(j.name, number_of(s.name));
    return joints;
}

/** Names in a text, the longest first, so that "side board" is not found within "left side board". */
function named(text, pieces) {
    const found = [];
    let left = text;
    for (const p of [...pieces].sort((a, b) => b.name.length - a.name.length)) {
        const at = new RegExp(`(^|[^\\w-])${escaped(p.name)}(?![\\w-])`, "i");
        if (p.name.length < 4 || !at.test(left)) continue;
        found.push(p.number);
        left = left.replace(at, "$1 ");
    }
    return found;
}

/** Numbers of the pieces a finding tells of; none when it is about the whole stove or the house. */
export function places_of(f, answer) {
    const pieces = all_pieces(answer), where = f.where ?? "", text = `${where} ${f.what ?? ""}`;
    const numbers = pieces.filter((p) => new RegExp(`(^|[^\\w-])${escaped(p.number)}(?![\\w-])`).test(text)).map((p) => p.number);
    if (numbers.length) return numbers;
    const joint = pieces_of_joints(answer).get(where);
    if (joint) return [...joint];
    const of_where = named(where, pieces);
    return of_where.length || ["flue", "site"].includes(f.study) ? of_where : named(f.what ?? "", pieces);
}
