// Photos of a report, on the phone: shrunk, kept until the studio has them, handed over piece by piece.
// The page loads this only once a photo was chosen, or while one is still here.

// As in shared-types/src/photos.rs; a test compares them.
const PHOTOS_MAX = 4;
const BYTES_MAX = 10_000_000;
const SIDE_MAX = 2048;
const PIECE_MAX = 256 * 1024;

const QUALITY = 0.85;
// Of a small picture, in pixels: shown at 72 on a screen of twice the points.
const THUMBNAIL = 144;
const PATIENCE = 60_000;
// Answers that an offset does not fit, one after the other, before this is left for another time.
const MISFITS_MAX = 5;

// One database for each page, named like everything else that is kept for it, so that it can be dropped as one.
const named = (path) => `betweentimes:${path}:photos`;
const STORE = "photos";

// Shrinks the chosen files and keeps them for a report. For each: {id, name, ok, why}, where `why` is "too_many",
// "unreadable", "too_heavy" or "no_room".
export async function keep(path, report, files) {
  const kept = [];
  for (const file of files) {
    const id = fresh();
    let why = "";
    const here = (await waiting(path)).filter((one) => one.report === report).length;
    if (here >= PHOTOS_MAX) {
      why = "too_many";
    } else {
      const small = await shrunk(file);
      if (!small) why = "unreadable";
      else if (small.size > BYTES_MAX) why = "too_heavy";
      else if (!(await put(path, { id, report, at: Date.now(), bytes: await small.arrayBuffer() }))) why = "no_room";
    }
    kept.push({ id, name: file.name, ok: !why, why });
  }
  return kept;
}

// A UUID of version 4; browsers make them themselves only over HTTPS.
function fresh() {
  if (crypto.randomUUID) return crypto.randomUUID();
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 0x0f) | 0x40;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})/, "$1-$2-$3-$4-");
}

// What is still here: [{report, photo}], in the order in which it was chosen.
export async function waiting(path) {
  return (await all(path)).map(({ report, id }) => ({ report, photo: id }));
}

// Hands over what is here, one photo after the other, and tells of each: `tell(report, photo, state, sentence)`, where
// `state` is "sending", "kept", "refused" (with the studio's sentence) or "waiting" (to be tried again later).
// Those of the report that is still being written, `but`, stay. Gives how many others are still here.
export async function handOver(path, but, tell) {
  const others = async () => (await all(path)).filter((photo) => photo.report !== but);
  const each = async () => {
    for (const photo of await others()) {
      let outcome;
      try {
        tell(photo.report, photo.id, "sending", "");
        outcome = await send(path, photo);
      } catch {
        outcome = { state: "waiting" };
      }
      if (outcome.state === "gone") {
        await forget(path);
        return;
      }
      if (outcome.state !== "waiting") await drop(path, photo.id);
      tell(photo.report, photo.id, outcome.state, outcome.sentence ?? "");
      if (outcome.state === "waiting") return;
    }
  };
  // Two tabs of one page do not send the same.
  if (navigator.locks) {
    await navigator.locks.request(named(path), { ifAvailable: true }, (lock) => lock && each());
  } else {
    await each();
  }
  return (await others()).length;
}

// Drops one photo.
export async function drop(path, photo) {
  await change(path, (store) => store.delete(photo)).catch(() => {});
  await note(path);
}

// Drops all of a page's photos.
export async function forget(path) {
  await new Promise((resolve) => {
    const asked = indexedDB.deleteDatabase(named(path));
    asked.onsuccess = asked.onerror = asked.onblocked = resolve;
  }).catch(() => {});
  noted(path, 0);
}

async function send(path, photo) {
  const address = `${path}/reports/${photo.report}/photos/${photo.id}`;
  const length = photo.bytes.byteLength;
  const asked = await ask(address, { method: "HEAD" });
  if (asked.status === 410 && isProblem(asked)) return { state: "gone" };
  // The report is not there yet, or the studio cannot answer now.
  if (asked.status === 404 || later(asked.status)) return { state: "waiting" };
  if (isWhole(asked)) return { state: "kept" };
  // Where it is refused, the next request says why.
  let offset = at(asked) ?? 0;
  let misfits = 0;
  for (;;) {
    const end = Math.min(offset + PIECE_MAX, length);
    const answer = await ask(address, {
      method: "PATCH",
      headers: {
        "content-type": "application/partial-upload",
        "upload-offset": `${offset}`,
        "upload-complete": end === length ? "?1" : "?0",
        "upload-length": `${length}`,
      },
      body: photo.bytes.slice(offset, end),
    });
    if (isWhole(answer)) return { state: "kept" };
    if (answer.status === 410 && isProblem(answer)) return { state: "gone" };
    if (answer.status === 404 || later(answer.status)) return { state: "waiting" };
    if (answer.status === 204 && at(answer) === end) {
      offset = end;
    } else if (at(answer) !== null && at(answer) <= length && misfits < MISFITS_MAX) {
      misfits += 1;
      offset = at(answer);
    } else if (at(answer) !== null) {
      return { state: "waiting" };
    } else {
      const problem = isProblem(answer) ? await answer.json().catch(() => null) : null;
      // A hotel's sign-in page, a proxy, whoever: only the studio itself refuses a photo.
      if (!problem?.type?.startsWith("/problems/")) return { state: "waiting" };
      return { state: "refused", sentence: problem.detail ?? "" };
    }
  }
}

// Whether the studio has all of it. Nobody else says so, whatever their status.
const isWhole = (answer) => answer.ok && answer.headers.get("upload-complete") === "?1";

// Whether it is a problem document (RFC 9457), as the studio's refusals are.
const isProblem = (answer) => (answer.headers.get("content-type") ?? "").startsWith("application/problem+json");

// Whether the same request may go well later.
const later = (status) => status === 408 || status === 429 || status >= 500;

const at = (answer) => {
  const offset = answer.headers.get("upload-offset");
  return offset === null ? null : Number(offset);
};

async function ask(address, request) {
  const control = new AbortController();
  const timer = setTimeout(() => control.abort(), PATIENCE);
  try {
    return await fetch(address, { ...request, cache: "no-store", credentials: "same-origin", redirect: "manual", signal: control.signal });
  } finally {
    clearTimeout(timer);
  }
}

// A JPEG of the picture, upright and no larger than it is kept, with nothing else in it. What this phone cannot draw is
// sent as it is, where the studio may be able to.
async function shrunk(file) {
  try {
    const picture = await drawn(file);
    const scale = Math.min(1, SIDE_MAX / Math.max(picture.width, picture.height));
    const width = Math.max(1, Math.round(picture.width * scale));
    const height = Math.max(1, Math.round(picture.height * scale));
    const canvas = self.OffscreenCanvas ? new OffscreenCanvas(width, height) : document.createElement("canvas");
    canvas.width = width;
    canvas.height = height;
    const pen = canvas.getContext("2d");
    pen.fillStyle = "white";
    pen.fillRect(0, 0, width, height);
    pen.imageSmoothingQuality = "high";
    pen.drawImage(picture, 0, 0, width, height);
    picture.close?.();
    const kind = "image/jpeg";
    const small = canvas.convertToBlob
      ? await canvas.convertToBlob({ type: kind, quality: QUALITY })
      : await new Promise((resolve) => canvas.toBlob(resolve, kind, QUALITY));
    if (small?.type === kind) return small;
  } catch {
    // Too large for this phone, or of a kind that it does not know.
  }
  return (await isKnown(file)) ? file : null;
}

async function drawn(file) {
  try {
    return await createImageBitmap(file, { imageOrientation: "from-image" });
  } catch {
    // Older phones: an image element turns it upright as well.
    const image = new Image();
    const address = URL.createObjectURL(file);
    try {
      image.src = address;
      await image.decode();
      return image;
    } finally {
      URL.revokeObjectURL(address);
    }
  }
}

// Whether it begins as a JPEG, PNG or WebP does.
async function isKnown(file) {
  try {
    const start = String.fromCharCode(...new Uint8Array(await file.slice(0, 12).arrayBuffer()));
    return start.startsWith("\xff\xd8\xff") || start.startsWith("\x89PNG") || (start.startsWith("RIFF") && start.endsWith("WEBP"));
  } catch {
    return false;
  }
}

async function open(path) {
  return new Promise((resolve, reject) => {
    const asked = indexedDB.open(named(path), 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore(STORE, { keyPath: "id" });
    asked.onerror = () => reject(asked.error);
    asked.onsuccess = () => {
      // Whoever drops it need not wait for us.
      asked.result.onversionchange = () => asked.result.close();
      resolve(asked.result);
    };
  });
}

async function change(path, what) {
  const database = await open(path);
  try {
    await new Promise((resolve, reject) => {
      const change = database.transaction(STORE, "readwrite", { durability: "strict" });
      change.oncomplete = resolve;
      change.onabort = () => reject(change.error);
      what(change.objectStore(STORE));
    });
  } finally {
    database.close();
  }
}

// Whether it is kept; a phone may have no room, or storage switched off.
async function put(path, photo) {
  try {
    await change(path, (store) => store.put(photo));
    await note(path);
    return true;
  } catch {
    return false;
  }
}

async function all(path) {
  try {
    const database = await open(path);
    try {
      const photos = await new Promise((resolve, reject) => {
        const asked = database.transaction(STORE).objectStore(STORE).getAll();
        asked.onsuccess = () => resolve(asked.result);
        asked.onerror = () => reject(asked.error);
      });
      return photos.sort((one, other) => one.at - other.at);
    } finally {
      database.close();
    }
  } catch {
    return [];
  }
}

// Notes for the page, which looks there before it loads this, how many photos are here.
async function note(path) {
  noted(path, (await all(path)).length);
}

function noted(path, count) {
  try {
    if (count) localStorage.setItem(named(path), `${count}`);
    else localStorage.removeItem(named(path));
  } catch {
    // Storage is switched off.
  }
}

// --- on the page ---

// A small picture of a photo, so that each is known by its looks; none where this phone cannot draw it.
async function thumbnail(bytes) {
  try {
    const picture = await createImageBitmap(new Blob([bytes]));
    const side = Math.min(picture.width, picture.height);
    const canvas = document.createElement("canvas");
    canvas.width = canvas.height = THUMBNAIL;
    canvas.setAttribute("aria-hidden", "true");
    const [left, top] = [(picture.width - side) / 2, (picture.height - side) / 2];
    canvas.getContext("2d").drawImage(picture, left, top, side, side, 0, 0, THUMBNAIL, THUMBNAIL);
    picture.close();
    return canvas;
  } catch {
    return null;
  }
}

// Lists the photos that were chosen for the report that is being written, takes in new ones, and hands over those whose
// report the studio has. The page calls this once.
export async function attach(path) {
  const input = document.getElementById("report-photos");
  const chosen = document.getElementById("photos-chosen");
  const onTheWay = document.getElementById("photos-kept");
  const written = () => document.querySelector("#report [name=report_id]")?.value ?? "";
  const lines = new Map();

  // Chosen ones stand beside the button that chose them; those of a sent report stand where the report's own news does.
  const line = (photo, text, removable) => {
    let item = lines.get(photo);
    if (!item) {
      item = document.createElement("li");
      item.append(document.createElement("span"));
      lines.set(photo, item);
    }
    item.querySelector("span").textContent = text;
    item.toggleAttribute("data-photo", removable);
    item.querySelector("button")?.remove();
    if (removable) {
      const remove = document.createElement("button");
      remove.type = "button";
      remove.className = "quiet";
      remove.textContent = input.dataset.remove;
      remove.onclick = async () => {
        await drop(path, photo);
        item.remove();
        lines.delete(photo);
        input.focus();
      };
      item.append(remove);
    }
    const list = removable || !onTheWay ? chosen : onTheWay;
    if (item.parentNode !== list) list?.append(item);
  };

  const show = async (photos) => {
    for (const photo of photos) {
      line(photo.id, input.dataset.kept, true);
      const small = await thumbnail(photo.bytes);
      if (small) lines.get(photo.id)?.prepend(small);
    }
  };

  const take = async () => {
    const files = [...input.files];
    input.value = "";
    const taken = await keep(path, written(), files);
    const kept = taken.filter(({ ok }) => ok).map(({ id }) => id);
    await show((await all(path)).filter(({ id }) => kept.includes(id)));
    // Told until the next choice.
    chosen.querySelectorAll(".fault").forEach((told) => told.remove());
    for (const { name, why } of taken.filter(({ ok }) => !ok)) {
      const told = document.createElement("li");
      told.className = "fault";
      told.textContent = `${name}: ${input.dataset[why] ?? input.dataset.unreadable}`;
      chosen.append(told);
    }
  };

  let again = 0;
  const go = async () => {
    clearTimeout(again);
    const left = await handOver(path, written(), (report, photo, state, sentence) => {
      const said = { sending: "sending", kept: "sent", waiting: "kept" }[state];
      if (input) line(photo, sentence || input.dataset[said] || "", false);
    });
    if (left) again = setTimeout(go, 20_000);
  };

  if (input) {
    await show((await all(path)).filter(({ report }) => report === written()));
    input.addEventListener("change", take);
    await take();
  }
  document.addEventListener("betweentimes:photos", go);
  await go();
}
