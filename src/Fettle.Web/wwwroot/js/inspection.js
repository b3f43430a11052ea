// Inspections on a dock with holes in its radio: what is typed and photographed is kept on the device, sent when there is a
// connection, and sent until the server has it. The id is made here, so that sending twice is recorded once. Devices are shared:
// what one person kept is never sent in another's name, unless that one says so.
(() => {
  "use strict";

  const spanish = {
    "Kept on this device, not yet sent.": "Guardado en este dispositivo, aún sin enviar.",
    "{0}: kept on this device, not yet sent.": "{0}: guardado en este dispositivo, aún sin enviar.",
    "{0}: kept on this device by {1}, and sent when they sign in here.": "{0}: guardado en este dispositivo por {1}; se envía cuando entre aquí.",
    "Send as mine": "Enviar como mío",
    "Was it you who measured this? It is then recorded in your name.": "¿Lo midió usted? Quedará registrado a su nombre.",
    "Kept on this device as you type.": "Se guarda en este dispositivo mientras escribe.",
    "Sending …": "Enviando …",
    "There is no connection. It is sent by itself when there is one again.": "No hay conexión. Se envía solo en cuanto vuelva.",
    "You have been signed out. Sign in: what is kept here is then sent.": "Su sesión se cerró. Entre: lo guardado aquí se envía después.",
    "Sign in": "Entrar",
    "Open": "Abrir",
    "Send now": "Enviar ahora",
    "Throw away": "Desechar",
    "Throw away what is kept on this device and was not sent?": "¿Desechar lo guardado en este dispositivo sin enviar?",
    "Something needs mending before it can be sent.": "Hay que corregir algo antes de enviarlo.",
    "It cannot be sent by you: this freight is not at your terminal.": "Usted no puede enviarlo: esta carga no está en su terminal.",
    "The server could not take it just now. It is tried again.": "El servidor no pudo recibirlo ahora. Se intenta de nuevo.",
    "This device cannot keep anything for later: do not close the page before it is sent.": "Este dispositivo no puede guardar nada: no cierre la página antes de enviar.",
    "{0}: sent.": "{0}: enviado.",
    "Remove": "Quitar",
    "Photo {0}": "Foto {0}",
    "{0} photos": "{0} fotos",
    "1 photo": "1 foto",
    "A photo was left out: {0}": "Una foto quedó fuera: {0}",
    "What you had typed here is back.": "Lo que había escrito aquí está de vuelta.",
  };
  const t = (english, ...parts) => (document.documentElement.lang === "es" ? spanish[english] ?? english : english).replace(/\{(\d)\}/g, (_, i) => parts[i]);

  // ---- What is kept: one record an inspection, photos in it as blobs. ----

  const open = () => new Promise((resolve, reject) => {
    const asked = indexedDB.open("fettle", 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore("inspections", { keyPath: "id" });
    asked.onsuccess = () => resolve(asked.result);
    asked.onerror = () => reject(asked.error);
  });
  let database;
  const run = async (mode, work) => {
    const db = await (database ??= open());
    return new Promise((resolve, reject) => {
      const change = db.transaction("inspections", mode);
      const asked = work(change.objectStore("inspections"));
      change.oncomplete = () => resolve(asked?.result);
      change.onerror = change.onabort = () => reject(change.error);
    });
  };
  const keep = record => run("readwrite", store => store.put(record));
  const drop = id => run("readwrite", store => store.delete(id));
  const find = id => run("readonly", store => store.get(id));
  const all = () => run("readonly", store => store.getAll());

  const token = () => document.querySelector('meta[name="request-token"]');
  const form = document.getElementById("inspection");
  const kept = document.getElementById("kept");
  if (!kept) return;
  const me = { id: kept.dataset.person, name: kept.dataset.name };
  const isMine = record => (record.by ?? me).id === me.id;

  // ---- The form: kept at every change. ----

  let here; // The record of the form on this page.
  let saving = Promise.resolve();

  const fields = () => [...new FormData(form)].filter(([, value]) => typeof value === "string").filter(([name]) => name !== "__RequestVerificationToken");

  const save = () => {
    if (!here || here.state !== "draft") return saving;
    here.fields = fields();
    here.changedAt = new Date().toISOString();
    const record = { ...here, photos: [...here.photos] };
    return saving = saving.then(() => keep(record)).catch(() => window.fettle?.say(t("This device cannot keep anything for later: do not close the page before it is sent."), { tone: "caution" }));
  };

  const fill = values => {
    for (const control of form.elements) {
      if (!control.name || control.type === "file" || control.name === "__RequestVerificationToken") continue;
      const value = values.find(([name]) => name === control.name)?.[1];
      if (control.type === "radio") control.checked = control.value === value;
      else if (value !== undefined) control.value = value;
    }
  };

  const begin = async () => {
    const line = form.elements.reference.value;
    const pickup = form.dataset.pickup;
    const unit = new URLSearchParams(location.search).get("unit") ?? "";
    // The server's own answer to a form without script is newer than what is kept.
    const fresh = !form.querySelector(".field__error");
    const earlier = (await all().catch(() => [])).find(record => isMine(record) && record.pickup === pickup && record.line === line && record.unit === unit && (record.state === "draft" || record.state === "wrong"));
    if (earlier && fresh) {
      here = { ...earlier, state: "draft" };
      fill(earlier.fields);
      complain(earlier.errors ?? {});
      window.fettle?.say(t("What you had typed here is back."));
    } else {
      if (fresh) form.elements.id.value = crypto.randomUUID();
      here = { id: form.elements.id.value, by: me, pickup, line, unit, name: form.dataset.name, page: location.pathname + location.search, state: "draft", fields: fields(), photos: [] };
    }
    showShots();
    showDamage();
    form.addEventListener("input", save);
    form.addEventListener("change", save);
    form.addEventListener("submit", async event => {
      event.preventDefault();
      event.stopImmediatePropagation(); // Nothing is sent twice by pressing twice; but it may be pressed again.
      if (here.state === "sending") return;
      form.elements.takenAt.value = new Date().toISOString();
      await save();
      here = { ...here, fields: fields(), state: "ready", errors: undefined };
      await keep(here).catch(() => {});
      await flush();
    }, true);
  };

  const complain = errors => {
    form.querySelectorAll(".field__error[data-kept]").forEach(error => error.remove());
    form.querySelectorAll(".field--wrong").forEach(field => field.classList.remove("field--wrong"));
    let first;
    for (const [name, sentence] of Object.entries(errors)) {
      const field = form.querySelector(`[data-field="${CSS.escape(name)}"]`);
      const error = document.createElement("p");
      error.className = "field__error";
      error.dataset.kept = "yes";
      error.textContent = sentence;
      (field ?? form.querySelector(".measures")).insertAdjacentElement(field ? "beforeend" : "beforebegin", error);
      field?.classList.add("field--wrong");
      first ??= field?.querySelector("input, select, textarea") ?? error;
    }
    first?.scrollIntoView({ block: "center" });
    first?.focus?.();
  };

  // ---- Photos ----

  const shots = document.getElementById("shots");
  const showShots = () => {
    if (!shots || !here) return;
    shots.hidden = here.photos.length === 0;
    shots.replaceChildren(...here.photos.map((photo, i) => {
      const item = document.createElement("li");
      const canvas = document.createElement("canvas");
      canvas.setAttribute("role", "img");
      canvas.setAttribute("aria-label", t("Photo {0}", i + 1));
      // A canvas shows a picture that is on the device alone; the page's policy lets no blob: address in.
      createImageBitmap(photo.blob, { resizeWidth: 160 }).then(small => {
        [canvas.width, canvas.height] = [small.width, small.height];
        canvas.getContext("2d").drawImage(small, 0, 0);
      }).catch(() => {});
      const remove = document.createElement("button");
      remove.type = "button";
      remove.className = "button button--quiet button--small";
      remove.textContent = t("Remove");
      remove.setAttribute("aria-label", `${t("Remove")}: ${t("Photo {0}", i + 1)}`);
      remove.addEventListener("click", () => {
        here.photos.splice(i, 1);
        save();
        showShots();
      });
      item.append(canvas, remove);
      return item;
    }));
  };

  document.getElementById("photos")?.addEventListener("change", async event => {
    const taken = [];
    for (const file of event.target.files)
      taken.push({ id: crypto.randomUUID(), blob: new Blob([await file.arrayBuffer()], { type: file.type || "application/octet-stream" }), takenAt: new Date().toISOString() });
    event.target.value = "";
    // One that is taken while the page still looks for what it had kept comes after that.
    await begun;
    here.photos.push(...taken);
    // What is shown is kept.
    await save();
    showShots();
  });

  // ---- Damage: one row, more when asked for. ----

  const more = document.getElementById("more-damage");
  const rows = [...document.querySelectorAll("[data-damage]")];
  const showDamage = () => {
    if (!more) return;
    const used = rows.findLastIndex(row => [...row.querySelectorAll("select, input")].some(control => control.value));
    rows.forEach((row, i) => row.hidden = i > Math.max(used, 0));
    more.hidden = rows.every(row => !row.hidden);
  };
  more?.addEventListener("click", () => {
    const next = rows.find(row => row.hidden);
    if (next) next.hidden = false;
    next?.querySelector("select").focus();
    more.hidden = rows.every(row => !row.hidden);
  });

  // ---- Sending ----

  class SignedOut extends Error {}
  class Later extends Error {}

  // Another may have signed in meanwhile in another tab: the server compares who kept it with who sends it.
  const send = async (path, body, type) => {
    const headers = { Accept: "application/json", "HX-Request": "true", RequestVerificationToken: token().content, "X-Kept-By": me.id };
    if (type) headers["Content-Type"] = type;
    const answer = await fetch(path, { method: "POST", body, headers, redirect: "manual" });
    if (answer.status === 401 || answer.type === "opaqueredirect") throw new SignedOut();
    return answer;
  };

  // After a new sign-in the form's token is another: it is read from the page anew, and the request made once more.
  const sendWithFreshToken = async (path, body, type) => {
    const answer = await send(path, body, type);
    if (answer.status !== 400) return answer;
    const page = await fetch("/scan", { redirect: "manual" });
    if (page.type === "opaqueredirect") throw new SignedOut();
    token().content = new DOMParser().parseFromString(await page.text(), "text/html").querySelector('meta[name="request-token"]').content;
    return send(path, body, type);
  };

  const sendOne = async record => {
    if (!record.location) {
      const body = new FormData();
      record.fields.forEach(([name, value]) => body.append(name, value));
      const answer = await sendWithFreshToken("/inspections", body);
      if (answer.status === 422 || answer.status === 409) {
        const errors = (await answer.json()).errors;
        return { ...record, state: "wrong", errors };
      }
      if (answer.status === 403 || answer.status === 404) return { ...record, state: "wrong", errors: { "": t("It cannot be sent by you: this freight is not at your terminal.") } };
      if (!answer.ok) throw new Later();
      record = { ...record, location: (await answer.json()).location };
      await keep(record);
    }
    while (record.photos.length > 0) {
      const [photo, ...others] = record.photos;
      const answer = await sendWithFreshToken(`${record.location}/photos?takenAt=${encodeURIComponent(photo.takenAt)}`, photo.blob, photo.blob.type || "application/octet-stream");
      if (answer.status === 422 || answer.status === 413)
        sessionStorage.setItem("fettle.left-out", answer.status === 422 ? (await answer.json()).errors.photos : "413");
      else if (!answer.ok) throw new Later();
      record = { ...record, photos: others };
      await keep(record);
    }
    await drop(record.id);
    return { ...record, state: "sent" };
  };

  let trouble;
  const flushAll = async () => {
    trouble = undefined;
    const waiting = (await all().catch(() => here ? [here] : [])).filter(record => record.state === "ready" && isMine(record));
    for (let record of waiting) {
      try {
        if (here?.id === record.id) show(t("Sending …"));
        record = await sendOne(record);
        if (record.state === "wrong") await keep(record);
        if (record.state === "sent" && here?.id !== record.id)
          window.fettle?.say(t("{0}: sent.", record.name), { link: { href: record.location, text: t("Open") } });
        if (here?.id === record.id) {
          if (record.state === "sent") {
            location.assign(record.location);
            return;
          }
          here = { ...record, state: "draft" };
          complain(record.errors);
        }
      } catch (failed) {
        trouble = failed instanceof SignedOut ? "signed-out" : failed instanceof Later ? "later" : "offline";
        // One that the server could not take keeps no other from being sent.
        if (!(failed instanceof Later)) break;
      }
    }
    await list();
  };
  // Of several open pages one sends.
  let flushing;
  const flush = () => flushing ??= (navigator.locks ? navigator.locks.request("fettle.inspections", flushAll) : flushAll()).finally(() => flushing = undefined);

  const show = (sentence, ...more) => {
    const notice = document.createElement("p");
    notice.className = "notice notice--caution";
    notice.append(sentence, ...more.flatMap(part => [" ", part]));
    return kept.replaceChildren(notice);
  };

  const button = (words, work) => {
    const made = document.createElement("button");
    made.type = "button";
    made.className = "button button--quiet button--small";
    made.textContent = words;
    made.addEventListener("click", work);
    return made;
  };

  const link = (words, href) => {
    const made = document.createElement("a");
    made.textContent = words;
    made.href = href;
    return made;
  };

  /** Says what is kept and why it is not sent. */
  const list = async () => {
    const waiting = (await all().catch(() => [])).filter(record => record.state === "ready" || record.state === "wrong" || (record.state === "draft" && record.id !== here?.id && record.changedAt));
    const why = trouble === "signed-out" ? t("You have been signed out. Sign in: what is kept here is then sent.")
      : trouble === "offline" ? t("There is no connection. It is sent by itself when there is one again.")
      : trouble === "later" ? t("The server could not take it just now. It is tried again.") : undefined;
    kept.replaceChildren(...waiting.map(record => {
      const notice = document.createElement("div");
      notice.className = "notice notice--caution kept";
      const words = document.createElement("p");
      const strong = document.createElement("strong");
      if (!isMine(record)) {
        strong.textContent = t("{0}: kept on this device by {1}, and sent when they sign in here.", record.name, record.by.name);
        words.append(strong);
        const mine = document.createElement("p");
        mine.className = "actions";
        if (record.state === "ready") mine.append(button(t("Send as mine"), async () => {
          if (!confirm(t("Was it you who measured this? It is then recorded in your name."))) return;
          await keep({ ...record, by: me });
          await flush();
        }));
        notice.append(words, mine);
        return notice;
      }
      strong.textContent = record.id === here?.id ? t("Kept on this device, not yet sent.") : t("{0}: kept on this device, not yet sent.", record.name);
      words.append(strong);
      if (record.photos.length > 0) words.append(` (${record.photos.length === 1 ? t("1 photo") : t("{0} photos", record.photos.length)})`);
      if (record.state === "wrong") words.append(" ", record.errors?.[""] ?? t("Something needs mending before it can be sent."));
      else if (record.state === "ready" && why) words.append(" ", why);
      const actions = document.createElement("p");
      actions.className = "actions";
      if (trouble === "signed-out") actions.append(link(t("Sign in"), `/sign-in?returnUrl=${encodeURIComponent(location.pathname + location.search)}`));
      else if (record.state === "ready") actions.append(button(t("Send now"), flush));
      if (record.id !== here?.id && record.state !== "ready") actions.append(link(t("Open"), record.page));
      actions.append(button(t("Throw away"), async () => {
        if (!confirm(t("Throw away what is kept on this device and was not sent?"))) return;
        await drop(record.id);
        if (record.id === here?.id) location.reload();
        else await list();
      }));
      notice.append(words, actions);
      return notice;
    }));
  };

  const leftOut = sessionStorage.getItem("fettle.left-out");
  if (leftOut && !form) {
    sessionStorage.removeItem("fettle.left-out");
    window.addEventListener("load", () => window.fettle?.say(t("A photo was left out: {0}", leftOut), { tone: "stop" }));
  }

  window.addEventListener("online", flush);
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" ? flush() : save());
  setInterval(async () => {
    if (navigator.onLine !== false && (await all().catch(() => [])).some(record => record.state === "ready" && isMine(record))) flush();
  }, 15000);
  const begun = form ? begin() : Promise.resolve();
  begun.then(flush);
})();
