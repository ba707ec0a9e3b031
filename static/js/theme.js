// Switches between paper and blueprint; a cookie tells the server, so no page flashes.
const dark = matchMedia("(prefers-color-scheme: dark)");

export default function themeSwitch(item) {
  item.hidden = false;
  item.querySelector("button").addEventListener("click", () => {
    const root = document.documentElement;
    const current = root.dataset.theme ?? (dark.matches ? "dark" : "light");
    root.dataset.theme = current === "dark" ? "light" : "dark";
    document.cookie = `theme=${root.dataset.theme}; path=/; max-age=31536000; samesite=lax`;
  });
}
