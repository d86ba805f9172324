// Reading the code of a label with the camera, where the browser can: a comfort. Typing it always works.
"use strict";

(() => {
  const form = document.querySelector("form[data-label]");
  const button = form && form.querySelector("[data-scan]");
  if (!button || !window.isSecureContext || !("BarcodeDetector" in window) || !navigator.mediaDevices) return;
  const OFTEN_MS = 250;
  const place = form.querySelector("[data-camera]");
  const told = form.querySelector("[data-told]");
  const words = button.textContent;
  let stream = null;

  const stop = () => {
    if (stream) stream.getTracks().forEach((track) => track.stop());
    stream = null;
    place.replaceChildren();
    place.hidden = true;
    button.textContent = words;
  };

  const look = async (detector, video) => {
    if (!stream) return;
    const found = await detector.detect(video).catch(() => []);
    const read = found.map((one) => one.rawValue).find((text) => /^GUDGEON [0-9A-Z]{6}$/.test(text));
    if (read) {
      stop();
      form.elements.code.value = read;
      form.requestSubmit();
      return;
    }
    if (found.length) told.textContent = "This code is not of a label of this program.";
    setTimeout(look, OFTEN_MS, detector, video);
  };

  const start = async () => {
    told.textContent = "";
    const video = document.createElement("video");
    video.muted = true;
    video.playsInline = true;
    try {
      stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" } });
      video.srcObject = stream;
      place.replaceChildren(video);
      place.hidden = false;
      button.textContent = "Stop the camera";
      await video.play();
      look(new BarcodeDetector({ formats: ["qr_code"] }), video);
    } catch {
      stop();
      told.textContent = "The camera cannot be used here. Type the code.";
    }
  };

  button.hidden = false;
  button.addEventListener("click", () => (stream ? stop() : start()));
  addEventListener("pagehide", stop);
})();
