"""Our line icons, drawn like the symbols of an engineering drawing on a 24 by 24 field."""

ICONS: dict[str, str] = {
    "accession": '<path d="M3 9h18v11H3zM3 9l3-5h12l3 5M3 14.5h18M12 4v5"/>',
    "arrow": '<path d="M4 12h15M14 7l5 5-5 5"/>',
    "back": '<path d="M20 12H5M10 7l-5 5 5 5"/>',
    "caution": '<path d="M12 3 2.5 20h19zM12 9v6"/>'
    '<circle class="solid" cx="12" cy="17.5" r="1.1"/>',
    "check": '<path d="M4 13l5 5L20 6"/>',
    "class": '<path d="M3 4h18v16H3zM3 16h18M14 16v4M6 11h10M8 11v2M14 11v2M6 11V8h10v3"/>',
    "component": '<circle cx="12" cy="12" r="8.5"/><circle cx="12" cy="12" r="3"/>'
    '<path d="M12 1.5v5M12 17.5v5M1.5 12h5M17.5 12h5"/>',
    "cross": '<path d="M5 5l14 14M19 5L5 19"/>',
    "drawing": '<path d="M4 3h11l5 5v13H4zM15 3v5h5M8 17l4-7 4 7zM12 8v2"/>',
    "find": '<circle cx="10.5" cy="10.5" r="7"/><path d="M10.5 7.5v6M7.5 10.5h6M15.5 15.5l6 6"/>',
    "fit": '<path d="M3 4h18v5H3zM3 15h18v5H3zM6 9.5v5M18 9.5v5M1.5 12h3M7.5 12h9M19.5 12h3'
    'M7 4L3 8M13 4l-5 5M19 4l-5 5M7 15l-4 4M13 15l-5 5M19 15l-5 5"/>',
    "history": '<path d="M6 3v18"/><circle class="solid" cx="6" cy="6" r="2.5"/>'
    '<circle class="solid" cx="6" cy="13" r="2.5"/><path d="M11 6h10M11 13h7M11 20h4"/>',
    "import": '<path d="M4 13v7h16v-7M12 3v11M8 10.5l4 4 4-4"/>',
    "location": '<path d="M3 2v20M21 2v20M3 8h18M3 15h18M3 21h18M6 8V4h5v4M13 15v-4h5v4"/>',
    "measure": '<path d="M3 4v16M21 4v16M3 12h18M7 9.5L3 12l4 2.5M17 9.5l4 2.5-4 2.5"/>',
    "member": '<circle cx="12" cy="8" r="4.5"/><path d="M3.5 21c0-5 3.5-7 8.5-7s8.5 2 8.5 7z"/>',
    "menu": '<path d="M3 6h18M3 12h18M3 18h12"/>',
    "needed": '<path stroke-dasharray="3.2 2.6" d="M3.5 3.5h17v17h-17z"/>'
    '<path d="M12 8v8M8 12h8"/>',
    "part": '<path d="M12 2.5l8.2 4.75v9.5L12 21.5l-8.2-4.75v-9.5z"/>'
    '<circle cx="12" cy="12" r="4"/>',
    "party": '<path d="M3 11c2 0 3-3 6-3l3 2 3-2c3 0 4 3 6 3'
    'M3 16c3 0 5 4 9 4s6-4 9-4M9 13l3 2 3-2"/>',
    "patent": '<path d="M3 3h18v18H3zM9 15l7-8"/><circle cx="7.5" cy="16.5" r="2.5"/>'
    '<path d="M14 16h4M14 18.5h4"/>',
    "photo": '<path d="M2.5 7h5l2-3h5l2 3h5v13h-19z"/><circle cx="12" cy="13" r="4"/>',
    "print": '<path d="M6 9V3h12v6M6 17H2.5V9h19v8H18M6 14h12v7H6z"/>',
    "scan": '<path d="M3 8V3h5M16 3h5v5M21 16v5h-5M8 21H3v-5M8 8v8M11 8v8M14 8v8M17 8v8"/>',
    "shop": '<path d="M2.5 21V9l6.3-5v5l6.4-5v5l6.3-5v17zM9 21v-6h6v6"/>',
    "sign-in": '<path d="M11 3h10v18H11M2.5 12h12M10 7.5l4.5 4.5-4.5 4.5"/>',
    "sign-out": '<path d="M13 3H3v18h10M8.5 12h13M17 7.5l4.5 4.5-4.5 4.5"/>',
    "source": '<path d="M4 3h11l5 5v13H4zM15 3v5h5M8 12h8M8 15h8M8 18h5"/>',
    "tag": '<path d="M7 4h14v16H7l-4.5-4.5v-7z"/>'
    '<circle cx="7.5" cy="12" r="1.8"/><path d="M12 9h6M12 15h4"/>',
    "take-in": '<path d="M7 4h14v16H7l-4.5-4.5v-7z"/><circle cx="7" cy="12" r="1.6"/>'
    '<path d="M14.5 8.5v7M11 12h7"/>',
    "theme": '<circle cx="12" cy="12" r="8.5"/>'
    '<path class="solid" d="M12 3.5a8.5 8.5 0 0 1 0 17z"/>',
    "undo": '<path d="M4 9h10a6 6 0 0 1 0 12H7M8.5 4.5L4 9l4.5 4.5"/>',
    "vehicle": '<path d="M2 6h20v8H2zM2 10h20M1 14h22"/><circle cx="6.5" cy="17.5" r="3"/>'
    '<circle cx="17.5" cy="17.5" r="3"/>',
    "want": '<path d="M3 4h18v12H11l-5 5v-5H3zM12 7v4"/>'
    '<circle class="solid" cx="12" cy="13.4" r="1"/>',
}
