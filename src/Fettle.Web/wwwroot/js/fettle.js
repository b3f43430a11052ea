// The small part that pages do in the browser. Everything works without it, except that it saves a press here and there.
(() => {
  "use strict";

  // What this script says by itself; the server says everything else in the page's language.
  const spanish = {
    "You have been signed out: what you typed is kept.": "Su sesión se cerró: lo que escribió está guardado.",
    "Sign in": "Entrar",
    "That did not work. What you typed is still here; try again.": "Eso no funcionó. Lo que escribió sigue aquí; pruebe otra vez.",
    "No connection just now. What you typed is still here; try again in a moment.": "Sin conexión por el momento. Lo que escribió sigue aquí; pruebe otra vez en un momento.",
    "You are signed in again. Carry on.": "Ya entró otra vez. Siga.",
    "Copied.": "Copiado.",
    "Copying is not allowed here: select the text and copy it.": "Aquí no se permite copiar: seleccione el texto y cópielo.",
  };
  const t = english => document.documentElement.lang === "es" ? spanish[english] ?? english : english;

  const live = () => document.getElementById("live");

  /** Says something without moving anyone: shown at the edge of the page and read out by screen readers. */
  const say = (sentence, { tone = "good", link } = {}) => {
    const notice = document.createElement("p");
    notice.className = `notice notice--${tone}`;
    notice.append(sentence);
    if (link) {
      const anchor = document.createElement("a");
      anchor.href = link.href;
      anchor.textContent = link.text;
      anchor.target = "_blank";
      notice.append(" ", anchor);
    }
    live()?.replaceChildren(notice);
    return notice;
  };

  // htmx sends the form token in a header; the page carries it in a meta element.
  const token = () => document.querySelector('meta[name="request-token"]');
  document.addEventListener("htmx:configRequest", event => {
    event.detail.headers["RequestVerificationToken"] = token().content;
  });

  document.addEventListener("htmx:responseError", event => {
    const { status, responseText } = event.detail.xhr;
    if (status === 401) {
      say(t("You have been signed out: what you typed is kept."), { tone: "caution", link: { href: "/sign-in?returnUrl=%2Fsigned-in", text: t("Sign in") } });
      return;
    }
    const answer = new DOMParser().parseFromString(responseText, "text/html").querySelector(".notice");
    say(answer?.textContent ?? t("That did not work. What you typed is still here; try again."), { tone: "stop" });
  });

  document.addEventListener("htmx:sendError", () =>
    say(t("No connection just now. What you typed is still here; try again in a moment."), { tone: "caution" }));

  // Signing in again in another tab takes the warning away in this one, and brings it that tab's form token.
  const sessions = "BroadcastChannel" in window ? new BroadcastChannel("fettle.session") : null;
  if (document.querySelector("[data-signed-in]")) sessions?.postMessage(token().content);
  sessions?.addEventListener("message", event => {
    token().content = event.data;
    document.querySelectorAll('input[name="__RequestVerificationToken"]').forEach(input => input.value = event.data);
    say(t("You are signed in again. Carry on."));
  });

  document.addEventListener("click", event => {
    const filler = event.target.closest?.("[data-fill]");
    if (filler) {
      const field = document.getElementById(filler.dataset.fill);
      field.value = filler.dataset.value;
      field.form.querySelector('input[type="password"]')?.focus();
    }

    const copier = event.target.closest?.("[data-copy]");
    if (copier)
      navigator.clipboard?.writeText(document.getElementById(copier.dataset.copy).textContent.trim())
        .then(() => say(t("Copied.")), () => say(t("Copying is not allowed here: select the text and copy it."), { tone: "caution" }));
  });

  // One press, one request: a second press on a submitting form does nothing.
  document.addEventListener("submit", event => {
    const form = event.target;
    if (event.defaultPrevented || form.method !== "post" || form.hasAttribute("hx-post")) return;
    if (form.dataset.sent) event.preventDefault();
    form.dataset.sent = "yes";
    setTimeout(() => delete form.dataset.sent, 5000); // A download leaves the page where it is.
  });
  window.addEventListener("pageshow", () => document.querySelectorAll("form[data-sent]").forEach(form => delete form.dataset.sent));

  window.fettle = { say };
})();
