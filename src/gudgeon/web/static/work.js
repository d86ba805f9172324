// How far a work is, asked for again and again without loading the page anew; when it is through, the page is.
"use strict";
(() => {
  const work = document.getElementById("work");
  if (!work) return;
  const bar = work.querySelector("progress");
  const words = work.querySelector(".words");
  let leaving = false;  // whoever is on his way to another page is not called back
  addEventListener("beforeunload", () => {
    leaving = true;
    setTimeout(() => { leaving = false; }, 5000);
  });

  const look = async () => {
    try {
      const answer = await fetch(work.dataset.address, { headers: { Accept: "application/json" } });
      if (!answer.ok) throw new Error(String(answer.status));
      const told = await answer.json();
      if (told.state !== "running" && !leaving) {
        location.reload();
        return;
      }
      if (words.textContent !== told.words) words.textContent = told.words;
      if (told.fraction === null) bar.removeAttribute("value");
      else bar.value = told.fraction;
    } catch {
      // The server does not answer; it is asked again.
    }
    setTimeout(look, 700);
  };
  setTimeout(look, 700);
})();
