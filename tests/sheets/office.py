"""LibreOffice Calc without a screen: a profile of its own, and a macro that opens a sheet and lists its cells.

``soffice --convert-to`` never fetches what formulas and links ask for. Loading with ``UpdateDocMode`` from a folder
that the profile trusts does, as for a person who presses "Allow updating".
"""

import os
import shutil
import subprocess
from collections.abc import Mapping
from dataclasses import dataclass
from html import escape
from pathlib import Path

SOFFICE = shutil.which("soffice")

_TIMEOUT = 60
_REGISTRY = "http://openoffice.org/2001/registry"

_MACRO = r"""
Function Plain(text As String) As String
    text = Replace(text, "\", "\\")
    text = Replace(text, Chr(10), "\n")
    text = Replace(text, Chr(13), "\r")
    Plain = Replace(text, Chr(9), "\t")
End Function

Sub List(source As String, target As String)
    Dim options(1) As New com.sun.star.beans.PropertyValue
    options(0).Name = "Hidden"
    options(0).Value = True
    options(1).Name = "UpdateDocMode"
    options(1).Value = com.sun.star.document.UpdateDocMode.FULL_UPDATE
    document = StarDesktop.loadComponentFromURL(source, "_blank", 0, options())
    files = createUnoService("com.sun.star.ucb.SimpleFileAccess")
    out = createUnoService("com.sun.star.io.TextOutputStream")
    out.setEncoding("UTF-8")
    out.setOutputStream(files.openFileWrite(target))
    For number = 0 To document.Sheets.Count - 1
        sheet = document.Sheets(number)
        cursor = sheet.createCursor()
        cursor.gotoEndOfUsedArea(False)
        For row = 0 To cursor.RangeAddress.EndRow
            For column = 0 To cursor.RangeAddress.EndColumn
                cell = sheet.getCellByPosition(column, row)
                If cell.Type <> com.sun.star.table.CellContentType.EMPTY Then
                    kind = "text"
                    content = Plain(cell.String)
                    If cell.getError() <> 0 Then
                        kind = "error"
                    ElseIf cell.Type = com.sun.star.table.CellContentType.VALUE Then
                        kind = "number"
                    ElseIf cell.Type = com.sun.star.table.CellContentType.FORMULA Then
                        If cell.FormulaResultType2 = com.sun.star.sheet.FormulaResult.VALUE Then kind = "number"
                    End If
                    If kind = "number" Then content = Trim(Str(cell.Value))
                    formula = ""
                    If cell.Type = com.sun.star.table.CellContentType.FORMULA Then formula = Plain(cell.Formula)
                    place = Split(cell.AbsoluteName, ".")
                    address = Replace(place(UBound(place)), "$", "")
                    out.writeString(Join(Array(sheet.Name, address, kind, content, formula), Chr(9)) & Chr(10))
                End If
            Next
        Next
    Next
    out.closeOutput()
    document.close(True)
    StarDesktop.terminate()
End Sub
"""


@dataclass(frozen=True, slots=True)
class Cell:
    """What a cell shows: ``kind`` is text, number or error."""

    kind: str
    content: str
    formula: str


Cells = dict[str, Cell]


def _item(path: str, name: str, value: str) -> str:
    return f'<item oor:path="{path}"><prop oor:name="{name}" oor:op="fuse"><value>{value}</value></prop></item>'


class Office:
    """LibreOffice with a profile in a folder; only sheets in ``trusted`` may fetch."""

    def __init__(self, folder: Path, trusted: Path, locale: str = "en-US") -> None:
        """Make the profile."""
        assert SOFFICE is not None
        self._profile, self._home = folder / "profile", folder
        user = self._profile / "user"
        library = user / "basic" / "Standard"
        library.mkdir(parents=True)
        items = [
            _item("/org.openoffice.Office.Common/Security/Scripting", "SecureURL", f"<it>{trusted.as_uri()}</it>"),
            # Else the first start overwrites the macro.
            _item("/org.openoffice.Setup/Office", "ooSetupInstCompleted", "true"),
            _item("/org.openoffice.Setup/L10N", "ooSetupSystemLocale", locale),
        ]
        head = '<?xml version="1.0" encoding="UTF-8"?>\n'
        (user / "registrymodifications.xcu").write_text(
            f'{head}<oor:items xmlns:oor="{_REGISTRY}">{"".join(items)}</oor:items>', "utf-8"
        )
        script = "http://openoffice.org/2000/script"
        library_of = "http://openoffice.org/2000/library"
        (library / "Module1.xba").write_text(
            f'{head}<script:module xmlns:script="{script}" script:name="Module1" script:language="StarBasic">'
            f"{escape(_MACRO)}</script:module>",
            "utf-8",
        )
        (library / "script.xlb").write_text(
            f'{head}<library:library xmlns:library="{library_of}" library:name="Standard" library:readonly="false" '
            'library:passwordprotected="false"><library:element library:name="Module1"/></library:library>',
            "utf-8",
        )
        (user / "basic" / "script.xlc").write_text(
            f'{head}<library:libraries xmlns:library="{library_of}" xmlns:xlink="http://www.w3.org/1999/xlink">'
            '<library:library library:name="Standard" library:link="false"/></library:libraries>',
            "utf-8",
        )

    def _run(self, *arguments: str) -> None:
        command = [str(SOFFICE), "--headless", "--norestore", f"-env:UserInstallation={self._profile.as_uri()}"]
        environ = {**os.environ, "HOME": str(self._home), "no_proxy": "*"}
        done = subprocess.run(
            [*command, *arguments], capture_output=True, text=True, timeout=_TIMEOUT, env=environ, check=False
        )
        assert done.returncode == 0, done.stderr

    def cells(self, sheet: Path) -> Mapping[str, Cells]:
        """Open a document, let it fetch what it asks for, and return its cells by sheet and address."""
        target = self._home / "cells"
        # The macro writes over what is there and leaves the rest.
        target.unlink(missing_ok=True)
        self._run(f'macro:///Standard.Module1.List("{sheet.as_uri()}","{target.as_uri()}")')
        found: dict[str, Cells] = {}
        for line in target.read_text("utf-8").splitlines():
            name, address, *parts = line.split("\t")
            found.setdefault(name, {})[address] = Cell(*parts)
        return found

    def converted(self, address: str, infilter: str, folder: Path) -> str:
        """Open an address as Calc's "Open" does, and return its first sheet as CSV with all text in quotes."""
        self._run(
            f"--infilter={infilter}",
            "--convert-to",
            "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,true,true,false",
            "--outdir",
            str(folder),
            address,
        )
        (made,) = folder.glob("*.csv")
        return made.read_text("utf-8")
