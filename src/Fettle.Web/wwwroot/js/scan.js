// One field for everything that names freight: a scanner that types, a hand, and the camera where there is one.
(() => {
  "use strict";

  const spanish = {
    "No camera is to be had here: use a scanner, or type the number.": "Aquí no hay cámara: use un lector o escriba el número.",
    "The camera may not be used: allow it in the browser, use a scanner, or type the number.": "No se permite usar la cámara: permítala en el navegador, use un lector o escriba el número.",
    "The bar code reader could not be loaded: use a scanner, or type the number.": "No se pudo cargar el lector de códigos: use un lector o escriba el número.",
    "Hold the label in front of the camera.": "Ponga la etiqueta frente a la cámara.",
    "Stop the camera": "Apagar la cámara",
  };
  const t = english => document.documentElement.lang === "es" ? spanish[english] ?? english : english;

  const form = document.getElementById("scan");
  const code = document.getElementById("code");
  const camera = document.getElementById("camera");
  const view = document.getElementById("camera-view");
  const says = document.getElementById("camera-says");
  if (!form) return;

  code.focus();
  code.select();

  // A scanner types wherever the focus is: what begins outside the field goes into it.
  document.addEventListener("keydown", event => {
    if (event.key.length !== 1 || event.ctrlKey || event.altKey || event.metaKey) return;
    if (event.target.closest?.("input, textarea, select, button, a, summary")) return;
    code.focus();
    code.select();
  });

  const say = sentence => {
    says.textContent = sentence;
    says.hidden = false;
  };

  let stream;
  const stop = () => {
    stream?.getTracks().forEach(track => track.stop());
    stream = undefined;
    view.hidden = true;
    camera.textContent = camera.dataset.start;
  };

  const wanted = ["code_128", "itf", "qr_code", "data_matrix"];

  /** What reads a picture: the browser itself, else a decoder from our own place, loaded only now. */
  const reader = async () => {
    if ("BarcodeDetector" in window) {
      const formats = (await BarcodeDetector.getSupportedFormats()).filter(format => wanted.includes(format));
      if (formats.includes("code_128")) {
        const detector = new BarcodeDetector({ formats });
        return async canvas => (await detector.detect(canvas))[0]?.rawValue;
      }
    }
    if (!window.ZXing) await new Promise((resolve, reject) => {
      const script = document.createElement("script");
      script.src = view.dataset.decoder;
      script.onload = resolve;
      script.onerror = reject;
      document.head.append(script);
    });
    const { MultiFormatReader, DecodeHintType, BarcodeFormat, BinaryBitmap, HybridBinarizer, HTMLCanvasElementLuminanceSource } = window.ZXing;
    const decoder = new MultiFormatReader();
    decoder.setHints(new Map([
      [DecodeHintType.POSSIBLE_FORMATS, [BarcodeFormat.CODE_128, BarcodeFormat.ITF, BarcodeFormat.QR_CODE, BarcodeFormat.DATA_MATRIX]],
      [DecodeHintType.TRY_HARDER, true],
    ]));
    return async canvas => {
      try {
        return decoder.decodeWithState(new BinaryBitmap(new HybridBinarizer(new HTMLCanvasElementLuminanceSource(canvas)))).getText();
      } catch {
        return undefined; // Nothing in this picture.
      }
    };
  };

  const look = async read => {
    const canvas = document.createElement("canvas");
    const context = canvas.getContext("2d", { willReadFrequently: true });
    while (stream) {
      if (view.videoWidth > 0) {
        [canvas.width, canvas.height] = [view.videoWidth, view.videoHeight];
        context.drawImage(view, 0, 0);
        const found = await read(canvas);
        if (found && stream) {
          code.value = found;
          stop();
          form.requestSubmit();
          return;
        }
      }
      await new Promise(resolve => setTimeout(resolve, 150));
    }
  };

  camera.dataset.start = camera.textContent;
  camera.hidden = false;
  camera.addEventListener("click", async () => {
    if (stream) {
      stop();
      return;
    }
    if (!navigator.mediaDevices?.getUserMedia) {
      say(t("No camera is to be had here: use a scanner, or type the number."));
      return;
    }
    try {
      stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: { ideal: "environment" }, width: { ideal: 1280 } }, audio: false });
    } catch (failed) {
      say(t(failed.name === "NotAllowedError" ? "The camera may not be used: allow it in the browser, use a scanner, or type the number." : "No camera is to be had here: use a scanner, or type the number."));
      return;
    }
    let read;
    try {
      read = await reader();
    } catch {
      stop();
      say(t("The bar code reader could not be loaded: use a scanner, or type the number."));
      return;
    }
    view.srcObject = stream;
    view.hidden = false;
    await view.play().catch(() => {});
    camera.textContent = t("Stop the camera");
    say(t("Hold the label in front of the camera."));
    look(read);
  });
  window.addEventListener("pagehide", stop);
})();
