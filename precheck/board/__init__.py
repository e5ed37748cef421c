"""The page on which one describes a house and sees what stops the job: a local server, and one project file behind it.

The file is the only thing kept: every value that the page takes is in it at once, written by `files/edit.py`, so that an
editor, `ask` and the page can take turns. `house_file.py` holds it with its undo, `board.py` answers what the page asks,
`picture.py`, `todo.py` and `forms.py` say what it shows, `sketch.py` turns what is drawn into changes of the file,
`gate.py` and `server.py` stand between it and the network, `page/` is what the browser runs.
"""
