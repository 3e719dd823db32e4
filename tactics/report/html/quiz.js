// Asks the questions of this page one by one. Everything it shows stands in the page already or is
// set as plain text; nothing is sent, and what is kept stays in this browser.
(() => {
  const start = document.getElementById("start"), summary = document.getElementById("summary");
  const papers = [...document.querySelectorAll(".paper")];
  const PAGE = Number(start.dataset.page), KEY = `tactics-quiz-${start.dataset.number}`;
  const TOOK_UP_TO_S = [10, 30, 60];
  const kept = { papers: {}, nickname: start.dataset.nickname, ...recall() };

  function recall() {
    try {
      const read = JSON.parse(localStorage.getItem(KEY));
      return read && typeof read === "object" && typeof read.papers === "object" ? read : {};
    } catch {
      return {};
    }
  }
  function keep() {
    try {
      localStorage.setItem(KEY, JSON.stringify(kept));
      return true;
    } catch {
      return false;
    }
  }

  function made(tag, text = "", more = {}) {
    const element = document.createElement(tag);
    element.textContent = text;
    for (const [name, value] of Object.entries(more)) element.setAttribute(name, value);
    return element;
  }
  function button(text, press, quiet = false) {
    const element = made("button", text, { type: "button", ...(quiet ? { class: "quiet" } : {}) });
    element.addEventListener("click", press);
    return element;
  }
  const wordsOf = (element) => element.textContent.trim();
  const answers = new Map();
  document.querySelectorAll("article").forEach((question, place) => {
    answers.set(question, document.querySelectorAll("#answers > div")[place]);
  });
  const questionsOf = (paper) => [...paper.querySelectorAll("article")];
  const marksOf = (number) => (kept.papers[number] ??= { marks: [], lines: {}, day: null });

  function show(element, focused) {
    start.hidden = element !== start;
    summary.hidden = element !== summary;
    for (const each of papers) each.classList.toggle("now", each === element.closest(".paper"));
    for (const each of document.querySelectorAll("article")) {
      each.classList.toggle("now", each === element);
    }
    focused.focus({ preventScroll: true });
    (element === start ? document.body : focused).scrollIntoView({ block: "start" });
  }

  // the day rolls over at four in the morning, as on the coach's side
  function dayNumber() {
    const now = new Date(Date.now() - 4 * 3600e3);
    const [year, month, day] = start.dataset.made.split("-").map(Number);
    const today = Date.UTC(now.getFullYear(), now.getMonth(), now.getDate());
    return Math.round((today - Date.UTC(year, month - 1, day)) / 864e5);
  }

  function begin() {
    const list = document.getElementById("papers-list");
    list.replaceChildren();
    for (const paper of papers) {
      const number = Number(paper.dataset.number), total = questionsOf(paper).length;
      const done = marksOf(number).marks.length;
      const name = papers.length > 1 ? `Paper ${number}, for ${paper.dataset.words}` : "The quiz";
      const next =
        done === 0 ? "start" : done < total ? `go on with question ${done + 1}` : "see the summary";
      const item = made("li");
      item.append(button(`${name}: ${next}`, () => ask(paper)));
      list.append(item);
    }
    show(start, start.querySelector("h2"));
  }

  function ask(paper) {
    const questions = questionsOf(paper), { marks } = marksOf(Number(paper.dataset.number));
    if (marks.length >= questions.length) {
      summarise(paper);
      return;
    }
    const question = questions[marks.length];
    const asked = Date.now();
    const complaint = made("p", "", { role: "alert", class: "hint" });
    complaint.hidden = true;
    const controls = made("div", "", { class: "controls given" });
    const answer = (sure) => {
      const picked = question.querySelector("input:checked");
      if (sure !== null && !picked) {
        complaint.hidden = false;
        complaint.textContent = "Pick one of the three first, or leave it open.";
        question.querySelector("input").focus();
        return;
      }
      const took = TOOK_UP_TO_S.findIndex((end) => Date.now() - asked < end * 1000);
      settle(paper, question, {
        picked: sure === null ? null : Number(picked.value),
        sure: sure === true,
        took: took < 0 ? TOOK_UP_TO_S.length : took,
      });
    };
    controls.append(
      button("I am sure", () => answer(true)),
      button("I am not sure", () => answer(false)),
      button("Leave it open", () => answer(null), true),
    );
    for (const old of question.querySelectorAll(".given")) old.remove();
    complaint.classList.add("given");
    question.append(choices(question), complaint, controls);
    question.querySelector("h3").tabIndex = -1;
    show(question, question.querySelector("h3"));
  }

  // the printed question as one that can be answered: native radios, the question as their legend
  function choices(question) {
    const set = made("fieldset", "", { class: "given" });
    set.append(made("legend", wordsOf(question.querySelector(":scope > p:nth-of-type(3)"))));
    textsOf(question).forEach((text, place) => {
      const label = made("label"), words = made("span");
      words.append(made("b", `${place + 1}`), ` ${text}`);
      label.append(made("input", "", { type: "radio", name: "picked", value: place }), words);
      set.append(label);
    });
    return set;
  }
  const textsOf = (question) => [...question.querySelectorAll(":scope > ol > li")].map(wordsOf);
  const gradesTo = (question) => [...answers.get(question).querySelectorAll("li")].map(wordsOf);

  function settle(paper, question, mark) {
    const number = Number(paper.dataset.number), record = marksOf(number);
    record.marks.push(mark);
    record.day = dayNumber();
    const isKept = keep();
    for (const old of question.querySelectorAll(".given")) old.remove();
    const told = toldTo(question, mark);
    question.append(told);
    told.querySelector("ol").after(courtTo(question));
    if (!isKept) {
      told.append(made("p", "This browser keeps nothing: finish the paper before you close it.", { class: "hint" }));
    }
    told.append(differently(record, record.marks.length));
    const controls = made("div", "", { class: "controls" });
    const isLast = record.marks.length === questionsOf(paper).length;
    controls.append(
      button(isLast ? "See the summary" : "Next question", () => (isLast ? summarise(paper) : ask(paper))),
      button("Enough for now", begin, true),
    );
    told.append(controls);
    show(question, told.querySelector("h3"));
  }

  // the court once more, beside what is said, with the target in it
  function courtTo(question) {
    const court = question.querySelector("svg").cloneNode(true);
    if (!("x" in court.dataset)) return court;
    const target = document.createElementNS("http://www.w3.org/2000/svg", "use");
    for (const [name, value] of Object.entries({ href: "#target", ...court.dataset })) target.setAttribute(name, value);
    court.insertBefore(target, court.querySelector("text"));
    return court;
  }

  // a copy of what the page says about this question, headed by what this answer earns
  function toldTo(question, mark) {
    const told = answers.get(question).cloneNode(true);
    const grades = gradesTo(question), texts = textsOf(question);
    told.classList.add("told", "given");
    told.querySelectorAll("li").forEach((line, place) => {
      line.replaceChildren(made("b", grades[place], { class: "grade" }), ` ${texts[place]}`);
      if (place === mark.picked) line.append(made("b", " (your answer)"));
    });
    const earned = mark.picked === null ? "" : grades[mark.picked];
    const heading = document.querySelector(`#headings [data-grade="${earned}"]`).textContent;
    told.querySelector("h3").replaceWith(made("h3", heading, { tabindex: "-1" }));
    return told;
  }

  function differently(record, number) {
    const box = made("details"), text = made("textarea", "", { rows: "2", maxlength: "200", "aria-label": "What you see differently" });
    text.addEventListener("input", () => {
      record.lines[number] = text.value;
      keep();
    });
    box.append(made("summary", "I see it differently"), made("p", "A line for your coach. It goes into the file of the result, not into the code."), text);
    return box;
  }

  function gradesOf(paper) {
    const { marks } = marksOf(Number(paper.dataset.number));
    return questionsOf(paper).map((question, place) => {
      const mark = marks[place];
      return !mark || mark.picked === null ? "left open" : gradesTo(question)[mark.picked];
    });
  }
  function counted(grades) {
    const counts = new Map();
    for (const grade of grades) counts.set(grade, (counts.get(grade) ?? 0) + 1);
    return [...counts].map(([grade, count]) => `${count} ${grade}`).join(", ");
  }
  function codeOf(paper) {
    const number = Number(paper.dataset.number), { marks, day } = marksOf(number);
    const nickname = start.dataset.nickname ? "" : kept.nickname.trim();
    return shortCode.write({ page: PAGE, paper: number - 1, day, marks, nickname });
  }
  function asText(paper, grades) {
    const { lines } = marksOf(Number(paper.dataset.number));
    const said = Object.entries(lines).filter(([, line]) => line.trim());
    return [
      `Quiz ${start.dataset.number}, paper ${paper.dataset.number}${kept.nickname.trim() ? `, ${kept.nickname.trim()}` : ""}`,
      `${grades.length} questions: ${counted(grades)}`,
      ...grades.map((grade, place) => `Question ${place + 1}: ${grade}`),
      ...said.map(([number, line]) => `Question ${number}, seen differently: ${line.replace(/\s+/g, " ").trim()}`),
      "Practice, not an exam.",
      `Code: ${codeOf(paper)}`,
      "",
    ].join("\n");
  }

  function summarise(paper) {
    const grades = gradesOf(paper);
    const heading = made("h2", "That is enough for today", { tabindex: "-1" });
    const list = made("ol");
    questionsOf(paper).forEach((question, place) => {
      list.append(made("li", `${question.querySelector("h3").textContent.replace(/^.*: /, "")}: ${grades[place]}`));
    });
    const code = made("p", codeOf(paper), { class: "code", id: "code" });
    const status = made("p", "", { role: "status" });
    summary.replaceChildren(heading, made("p", `${grades.length} questions: ${counted(grades)}.`), list);
    if (!start.dataset.nickname) summary.append(nicknameField(paper, code));
    summary.append(
      made("h3", "For your coach"),
      made("p", "Send this code, or the file. It holds your answers in short; whoever has this page can read it. It is practice, not an exam."),
      code,
      copyControls(paper, code, status, grades),
      status,
    );
    show(summary, heading);
  }

  function nicknameField(paper, code) {
    const label = made("label", "", { class: "name" }), input = made("input", "", { type: "text", maxlength: "24", autocomplete: "off" });
    input.value = kept.nickname;
    input.addEventListener("input", () => {
      kept.nickname = input.value;
      keep();
      code.textContent = codeOf(paper);
    });
    label.append(made("span", "Your nickname (never your full name)"), input);
    return label;
  }

  function copyControls(paper, code, status, grades) {
    const controls = made("div", "", { class: "controls" });
    const say = (text) => (status.textContent = text);
    const copy = async () => {
      try {
        await navigator.clipboard.writeText(code.textContent);
        say("The code is copied.");
      } catch {
        getSelection().selectAllChildren(code);
        say(document.execCommand("copy") ? "The code is copied." : "Press and hold the code to copy it.");
      }
    };
    const save = () => {
      const link = made("a", "", { download: `quiz-${start.dataset.number}-paper-${paper.dataset.number}.txt` });
      link.href = URL.createObjectURL(new Blob([asText(paper, grades)], { type: "text/plain" }));
      link.click();
      say("The file is saved among your downloads.");
    };
    controls.append(button("Copy the code", copy), button("Save as a file", save, true), button("Back to the start", begin, true));
    return controls;
  }

  document.body.classList.add("live");
  begin();
})();
