"""The papers that a job needs, in Markdown, from the same findings as every report: one module a paper."""
