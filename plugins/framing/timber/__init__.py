"""Wood as numbers: sizes, published strengths and their factors, in inches, pounds and psi. It knows no house and no code."""
