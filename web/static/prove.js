// Sends a log with its progress, and takes one that is dropped on the page.
// Without scripts the form sends it.

const form = document.getElementById("send");
const file = document.getElementById("file");
const sending = document.getElementById("sending");

function show(part, say) {
  sending.hidden = false;
  sending.querySelector("progress").value = part;
  sending.querySelector("span").textContent = say;
}

function send(log) {
  const body = new FormData();
  body.append("log", log, log.name);
  const request = new XMLHttpRequest();
  request.open("POST", form.action);
  request.upload.addEventListener("progress", (event) => {
    const mega = (n) => (n / 1048576).toFixed(0);
    if (event.lengthComputable) show(event.loaded / event.total, mega(event.loaded) + " of " + mega(event.total) + " MB sent.");
  });
  request.addEventListener("load", () => {
    if (request.status === 200) {
      location.assign(request.responseURL);
      return;
    }
    const page = new DOMParser().parseFromString(request.responseText, "text/html");
    const why = page.querySelector("header .wrong");
    show(0, why ? why.textContent : request.responseText.slice(0, 300));
    form.querySelector("button").disabled = false;
  });
  request.addEventListener("error", () => {
    show(0, "Not sent: the program does not answer, or refused the file.");
    form.querySelector("button").disabled = false;
  });
  form.querySelector("button").disabled = true;
  show(0, "Sending " + log.name + ".");
  request.send(body);
}

if (form) {
  form.addEventListener("submit", (event) => {
    if (!file.files.length) return;
    event.preventDefault();
    send(file.files[0]);
  });
  document.addEventListener("dragover", (event) => {
    event.preventDefault();
    form.classList.add("over");
  });
  document.addEventListener("dragleave", (event) => {
    if (!event.relatedTarget) form.classList.remove("over");
  });
  document.addEventListener("drop", (event) => {
    event.preventDefault();
    form.classList.remove("over");
    if (event.dataTransfer.files.length) send(event.dataTransfer.files[0]);
  });
}
