// On signing out, the lists leave the phone, and on signing in, whose it was; what waits stays.
export default function forget(form) {
  form.addEventListener("submit", async (event) => {
    if (!("indexedDB" in window) || form.isForgotten) return;
    event.preventDefault();
    form.isForgotten = true;
    try {
      const { change } = await import("./capture/store.js");
      const keys = form.dataset.forget.split(" ");
      await change(["things"], (at) => keys.forEach((key) => at("things").delete(key)));
    } finally {
      form.requestSubmit();
    }
  });
}
