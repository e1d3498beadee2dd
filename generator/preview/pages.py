"""A page of the site, or problems, in; what the preview serves for them out.

The files of the site are never touched: the script is put in on the way to the browser.
"""

from __future__ import annotations

import re
from html import escape, unescape

from generator.problems import Problem

SCRIPT_PATH = "/__live.js"
STYLE_PATH = "/__live.css"
_META = re.compile(r"<meta\b[^>]*>", re.IGNORECASE)
_IS_POLICY = re.compile(r"""http-equiv\s*=\s*["']?content-security-policy\b""", re.IGNORECASE)
_CONTENT = re.compile(r"""(\bcontent\s*=\s*)("[^"]*"|'[^']*')""", re.IGNORECASE)
_POLICY = "default-src 'none'; script-src 'self'; style-src 'self'; base-uri 'none'; form-action 'none'"


def with_live_script(html: str, page: str) -> str:
    """The page with the preview's script at its end, and a policy that lets it listen to the preview.

    `page` names the build it is served from.
    """
    script = f'<script src="{SCRIPT_PATH}" data-page="{escape(page)}"></script>'
    html = _META.sub(lambda meta: _allow_events(meta[0]), html)
    end = html.lower().rfind("</body")
    return html + script if end < 0 else html[:end] + script + html[end:]


def _allow_events(meta: str) -> str:
    """A policy's meta element with `connect-src 'self'` added; any other meta element as it is."""
    if not _IS_POLICY.search(meta):
        return meta
    return _CONTENT.sub(lambda found: f'{found[1]}"{escape(_with_connect(unescape(found[2][1:-1])))}"', meta)


def _with_connect(policy: str) -> str:
    """The first directive of a name is the one that counts (CSP Level 3, section 2.2.1), so ours replaces."""
    parts = [part.strip() for part in policy.split(";")]
    kept = [part for part in parts if part and part.split()[0].lower() != "connect-src"]
    return "; ".join([*kept, "connect-src 'self'"])


def count_of(problems: tuple[Problem, ...]) -> str:
    """How many errors and warnings, in words: 2 errors, 1 warning."""
    errors = sum(problem.is_error for problem in problems)
    counts = ((errors, "error"), (len(problems) - errors, "warning"))
    return ", ".join(f"{count} {word}{'' if count == 1 else 's'}" for count, word in counts if count)


def problems_panel(problems: tuple[Problem, ...], *, ok: bool) -> str:
    """What the script lays over a page: an alert after a failed build, a folded list of mere warnings."""
    if not problems:
        return ""
    listed = _list(problems)
    dismiss = '<button type="button">Dismiss (Esc)</button>'
    if ok and any(problem.is_error for problem in problems):
        head = f"<p><strong>{count_of(problems)}.</strong> What is not read is left out of these pages.</p>"
        return f'{dismiss}<div role="alert">{head}{listed}</div>'
    if ok:
        return f"{dismiss}<details><summary>{count_of(problems)}</summary>{listed}</details>"
    head = f"<p><strong>{count_of(problems)}.</strong> This is the last good build.</p>"
    return f'{dismiss}<div role="alert">{head}{listed}</div>'


def problems_page(problems: tuple[Problem, ...], page: str) -> str:
    """What is served while no build was good yet: every problem, in place of the site."""
    head = f"<h1>This book cannot be built yet</h1>\n<p>{count_of(problems)}.</p>"
    return _own_page("Problems", f'<div role="alert">\n{head}\n{_list(problems)}\n</div>', page)


def missing_page(path: str, page: str) -> str:
    """What is served where the site has no such file."""
    link = '<p><a href="/">To the first page</a></p>'
    return _own_page("Not in this site", f"<h1>Not in this site</h1>\n<p>{escape(path)}</p>\n{link}", page)


def _list(problems: tuple[Problem, ...]) -> str:
    return "<ol>\n" + "\n".join(_item(problem) for problem in problems) + "\n</ol>"


def _item(problem: Problem) -> str:
    lines = [
        f"<strong>{problem.severity.value}</strong> <code>{escape(str(problem.position or ''))}</code>",
        escape(problem.message),
        f"<em>{escape(problem.hint)}</em>",
    ]
    return f"<li>{'<br>'.join(lines)}</li>"


def _own_page(title: str, body: str, page: str) -> str:
    head = (
        '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f'<title>{title}</title>\n<link rel="stylesheet" href="{STYLE_PATH}">\n</head>\n'
    )
    html = f'{head}<body class="live-page">\n<main>\n{body}\n</main>\n</body>\n</html>\n'
    return with_live_script(html, page)
