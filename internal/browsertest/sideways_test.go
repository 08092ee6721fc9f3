package browsertest

// sideways says what makes the page wider than its window; empty when nothing does. Regions that scroll on their own may.
func sideways(p *Page) string {
	p.t.Helper()
	p.Settle()
	return Eval[string](p, `(() => {
		const root = document.documentElement, width = root.clientWidth;
		if (root.scrollWidth <= width && document.body.scrollWidth <= width) return "";
		const inRegion = (e) => { for (; e && e !== root; e = e.parentElement) if (getComputedStyle(e).overflowX !== "visible") return true; return false; };
		const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT), wide = [];
		for (let n; (n = texts.nextNode());) {
			const range = document.createRange();
			range.selectNodeContents(n);
			const right = range.getBoundingClientRect().right + scrollX;
			if (right > width + 1 && n.parentElement.checkVisibility() && !inRegion(n.parentElement)) wide.push(n);
		}
		for (const e of document.querySelectorAll("body *"))
			if (e.getBoundingClientRect().right + scrollX > width + 1 && e.checkVisibility() && !inRegion(e)) wide.push(e);
		return root.scrollWidth + " px in " + width + ": " +
			wide.slice(0, 5).map((n) => n.data ? n.parentElement.tagName + " " + n.data.slice(0, 80) : n.outerHTML.slice(0, 120)).join(" | ");
	})()`)
}
