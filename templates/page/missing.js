// What is missing about a fitting, as `rigdeed check` would say it of the survey.

function missingOf(fitting) {
  const found = [];
  const unseen = cellOf("unseen", fitting.id, "both");
  let pair = false;
  let looked = false;
  for (const pass of passes) {
    const cell = lookOf(fitting.id, pass);
    if (!cell) {
      if (fitting.must.includes(pass) && !unseenOf(fitting.id, pass)) found.push({ code: "look", pass });
      continue;
    }
    looked = true;
    const { at, far, close, because } = cell.look;
    if (!at) found.push({ code: "time", pass });
    if (far && close) pair = true;
    else if (far && !because) found.push({ code: "close", pass });
    else if (close && !because) found.push({ code: "far", pass });
    for (const sign of cell.signs) {
      if (!far || !close) found.push({ code: "sign-pair", pass });
      if (!sign.words) found.push({ code: "sign-words", pass });
    }
  }
  if (!pair && !unseen && (looked || fitting.must.length > 0)) found.push({ code: "pair" });
  return found;
}

const missingText = (one) => say("missing." + one.code, { pass: one.pass ? passWord(one.pass) : "" });

const order = ["sound", "unseen", "watch", "rectify", "renew"];
const signRule = (fitting, code) => data.kinds[fitting.kind]?.signs.find((one) => one.code === code);

// The worst of the signs seen; nothing where none is worse than sound: what is sound the report says, of the whole.
function worstOf(fitting) {
  let worst = null;
  for (const pass of passes)
    for (const sign of lookOf(fitting.id, pass)?.signs || []) {
      const rule = signRule(fitting, sign.code);
      if (rule && (worst === null || order.indexOf(rule.verdict) > order.indexOf(worst))) worst = rule.verdict;
    }
  return worst === "sound" ? null : worst;
}
