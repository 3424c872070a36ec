/** How the page looks on this screen: light or dark, and large for a tablet at the bench. */

export const THEMES = ["system", "light", "dark"] as const;
export type Theme = (typeof THEMES)[number];

const YEAR_S = 365 * 24 * 3600;

// a cookie and not the storage of the page: each start has a port of its own, storage is kept by port, cookies are not
function kept(key: string): string | null {
  const start = `cleatwright-${key}=`;
  return document.cookie.split("; ").find((one) => one.startsWith(start))?.slice(start.length) ?? null;
}

function keep(key: string, value: string): void {
  document.cookie = `cleatwright-${key}=${value}; Path=/; Max-Age=${YEAR_S}; SameSite=Strict`;
}

class Look {
  theme = $state<Theme>("system");
  large = $state(false);

  begin(): void {
    const theme = kept("theme") as Theme | null;
    this.theme = theme && THEMES.includes(theme) ? theme : "system";
    this.large = kept("large") === "yes";
    this.show();
  }

  setTheme(theme: Theme): void {
    this.theme = theme;
    keep("theme", theme);
    this.show();
  }

  setLarge(large: boolean): void {
    this.large = large;
    keep("large", large ? "yes" : "no");
    this.show();
  }

  private show(): void {
    const root = document.documentElement;
    if (this.theme === "system") delete root.dataset["theme"];
    else root.dataset["theme"] = this.theme;
    if (this.large) root.dataset["large"] = "";
    else delete root.dataset["large"];
  }
}

export const look = new Look();
