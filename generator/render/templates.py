"""A theme in, a function from view to HTML out; the only place that knows the template engine."""

from __future__ import annotations

from jinja2 import Environment, FileSystemLoader, StrictUndefined, TemplateError, TemplateSyntaxError

from generator.render.theme import Theme, ThemeError


def make_environment(theme: Theme) -> Environment:
    """Everything is escaped, an undefined name is an error, the theme's folder comes before base's."""
    return Environment(
        loader=FileSystemLoader([str(folder) for folder in theme.folders]),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )


def fill_template(environment: Environment, template: str, **views: object) -> str:
    """One page: the template's name is its page kind's, its file `templates/<name>.html`. Raises ThemeError."""
    file = f"templates/{template}.html"
    try:
        return environment.get_template(file).render(**views)
    except TemplateError as error:
        at = f"{error.name}:{error.lineno}" if isinstance(error, TemplateSyntaxError) else file
        raise ThemeError(f"{at}: {error.message}") from error
