"""SVG drawings: roles, units, transforms, and everything that is left out is told."""

from dataclasses import replace

import pytest
from drawnliners import OPTIONS, area_mm2, bounds_mm, from_svg, svg_bytes

from nesting.errors import InputError, InputErrors
from nesting.liners.options import read_layers
from nesting.liners.svgread import read_svg

BOX = '<rect x="100" y="200" width="300" height="400"/>'
"""From 600 to 1000 mm above the lower edge of the page."""


def only(found):
    """Return the one ornament."""
    (ornament,) = found.liner.ornaments
    return ornament


@pytest.mark.parametrize(
    "body",
    [
        f'<g id="ornament">{BOX}</g>',
        f'<g id="ORNAMENT"><g id="g12">{BOX}</g></g>',
        f'<g id="layer1" xmlns:k="u" k:label="Ornament">{BOX}</g>',
        f'<g class="big ornament">{BOX}</g>',
        BOX.replace("/>", ' class="ornament"/>'),
        '<g id="ornament"><path d="M100 200h300v400h-300z"/></g>',
        '<g id="ornament"><polygon points="100,200 400 200 400,600 100 600"/></g>',
        '<g id="ornament" transform="translate(50 0)"><g transform="scale(10)">'
        '<rect x="5" y="20" width="30" height="40"/></g></g>',
        '<g id="ornament" transform="rotate(90)">'
        '<rect x="200" y="-400" width="400" height="300"/></g>',
        '<defs><rect id="a" x="50" y="20" width="300" height="400"/></defs>'
        '<g id="ornament"><use href="#a" x="50" y="180"/></g>',
        '<symbol id="a"><rect width="300" height="400"/></symbol>'
        '<g id="ornament"><use xlink:href="#a" transform="translate(100 200)"/></g>',
    ],
)
def test_one_box_drawn_in_many_ways(body):
    """Roles by id, label and class in any case; transforms and copies to any depth."""
    assert bounds_mm(only(from_svg(body)).outline) == (100, 600, 400, 1000)


@pytest.mark.parametrize(
    ("head", "width"),
    [
        ('width="2400mm" height="1200mm" viewBox="0 0 2400 1200"', 2400),
        ('width="240cm" height="120cm" viewBox="0 0 2400 1200"', 2400),
        ('width="9600mm" height="4800mm" viewBox="0 0 2400 1200"', 9600),
        ('width="24in" height="12in" viewBox="0 0 2400 1200"', 609.6),
        ('width="2400" height="1200"', 635),
        ('width="2400px" height="1200px" viewBox="0 0 2400 1200"', 635),
        ('width="1800pt" height="900pt" viewBox="0 0 2400 1200"', 635),
    ],
)
def test_units_come_from_the_page(head, width):
    """The page's size over its view box; px are 1/96 in, exactly."""
    found = from_svg("", head=head)
    assert bounds_mm(found.liner.outline)[2] == width
    assert ("96 px" in " ".join(found.notes)) == (width == 635 and "pt" not in head)


def test_a_page_in_inches_makes_an_inch_liner():
    """Its file and its report are in inches."""
    assert from_svg("", head='width="24in" height="12in" viewBox="0 0 2400 1200"').units == "in"


@pytest.mark.parametrize("head", ["", 'width="100%" height="100%" viewBox="0 0 2400 1200"'])
def test_a_page_without_a_size_asks_for_the_unit(head):
    """Nothing is guessed; with --units it is read."""
    with pytest.raises(InputError, match=r"its unit is not known, got .*; give .* --units mm"):
        from_svg("", head=head)
    found = from_svg("", head=head, options=replace(OPTIONS, units="cm"))
    assert bounds_mm(found.liner.outline) == (0, 0, 24000, 12000)
    assert "One unit of the drawing is 1 cm, as --units says" in found.notes


def test_other_layer_names_can_be_given():
    """They replace the roles' own names."""
    layers = read_layers(("ornament=Relief,ornament=Reeds", "outline=rim"))
    body = f'<rect id="RIM" width="2400" height="1200"/><g id="relief">{BOX}</g>'
    found = from_svg(body, options=replace(OPTIONS, layers=layers), rim=False)
    assert len(found.liner.ornaments) == 1


def test_names_come_from_titles_labels_ids_and_groups():
    """What a program numbered by itself is no name."""
    body = (
        '<g id="ornament">'
        '<path d="M10 10h9v9z"><title>grey heron</title></path>'
        '<path id="reed" d="M30 10h9v9z"/>'
        '<path id="path4711" d="M50 10h9v9z"/>'
        '<g id="bank"><path id="rect8-3" d="M70 10h9v9z"/><path d="M90 10h9v9z"/></g>'
        "</g>"
    )
    names = [ornament.name for ornament in from_svg(body).liner.ornaments]
    assert names == ["grey heron", "reed", "ornament 1", "bank", "bank 2"]


def test_rounded_corners_and_ellipses_are_curves():
    """They are a little larger than drawn as ornaments, a little smaller as blank zones."""
    shape = '<rect x="100" y="100" width="300" height="200" rx="50"/>'
    drawn = 300 * 200 - 50 * 50 * (4 - 3.14159265358979)
    found = from_svg(f'<g id="ornament">{shape}</g><g id="blank">{shape}</g>')
    larger, smaller = area_mm2(only(found).outline), area_mm2(found.liner.zones[0].outline)
    assert drawn < larger < drawn + 0.05 * 900
    assert drawn - 0.05 * 900 < smaller < drawn


def test_what_has_no_role_is_told_by_its_layer():
    """Counted, with the reason, and traced for the picture."""
    found = from_svg(f'<g id="frame">{BOX}{BOX}</g>{BOX}<text>words</text>')
    assert found.left_out == (
        ("a shape on layer 'frame'", "the layer has no role; give it one with --layer", 2),
        ("a shape outside any layer", "the layer has no role; give it one with --layer", 1),
        ("text", "text is not read; turn it into paths, or move it to a layer without a role", 1),
    )
    assert len(found.ignored[0].trace) > 4


@pytest.mark.parametrize(
    "hiding", ['display="none"', 'style="display:none"', 'visibility="hidden"']
)
def test_hidden_shapes_are_left_out_and_told(hiding):
    """What cannot be seen is not taken, and is not passed over in silence."""
    found = from_svg(f'<g id="ornament" {hiding}>{BOX}</g>')
    assert found.liner.ornaments == ()
    assert found.left_out == (("a shape on layer 'ornament'", "'ornament' is hidden", 1),)


@pytest.mark.parametrize(
    ("body", "told"),
    [
        ('<text x="3">heron</text>', "text is not read; turn it into paths"),
        ('<image href="x.png"/>', "an image is not read; trace it first"),
        ('<svg><rect width="5" height="5"/></svg>', "a drawing within the drawing is not read"),
        ('<use href="#gone"/>', "'#gone' is not in the file"),
        ('<use href="b.svg#a"/>', "nothing outside is fetched"),
        ('<g id="a"><use href="#a"/></g>', "'#a' holds itself"),
        ('<path d="M1 1Lx"/>', "d: must be path data, character 6"),
        ('<circle r="5%"/>', "r: must be a length without a relative unit"),
        ('<polygon points="1 2 3"/>', "points: must be pairs of numbers"),
        ('<g transform="spin(4)"><rect width="5" height="5"/></g>', "must be a transform"),
        (
            '<g style="transform:scale(2)"><path d="M1 1h4v4z"/></g>',
            "the attribute transform alone",
        ),
        ('<circle r="5" style="r:9px"/>', "r: must be an attribute, not a style, got 9px"),
        ('<circle cx="5"/>', "it has no size"),
        ('<rect width="-5" height="5"/>', "it has no size"),
        ('<path fill="none" d="M10 10h50v50"/>', "does not close: a gap of 70.711 mm at"),
        ('<line x1="5" x2="50"/>', "does not close"),
        ('<symbol id="s" viewBox="0 0 1 1"/><use href="#s"/>', "a symbol with a viewBox is not"),
    ],
)
def test_what_cannot_be_read_of_a_role_is_a_mistake(body, told):
    """It names the element and its line; with --lenient it is left out and told."""
    with pytest.raises(InputErrors, match=told) as refused:
        from_svg(f'<g id="ornament">{body}</g>')
    assert "in line 1" in str(refused.value)
    found = from_svg(f'<g id="ornament">{body}</g>', options=replace(OPTIONS, lenient=True))
    assert any(told in why for _, why, _ in found.left_out)


@pytest.mark.parametrize(
    "around",
    [
        '<svg width="9" height="9">{}</svg>',
        '<symbol id="s" viewBox="0 0 1 1">{}</symbol><use href="#s"/>',
        '<g transform="rotate(9deg)">{}</g>',
        '<g style="transform:none">{}</g>',
        "<blob>{}</blob>",
        '<use href="#gone"/>{}',
    ],
)
def test_an_ornament_within_what_is_not_read_is_a_mistake(around):
    """Though nothing around it has a role; with --lenient it is told."""
    body = around.format(f'<g id="ornament">{BOX}</g>')
    with pytest.raises(InputErrors, match=r"in line 1: .*mend that or leave it out with --lenient"):
        from_svg(body)
    assert from_svg(body, options=replace(OPTIONS, lenient=True)).left_out


def test_the_plain_child_of_a_switch_is_read():
    """Vector programs keep their own form of a drawing beside the standard one."""
    body = '<switch><foreignObject requiredExtensions="urn:a"/><g id="ornament">{}</g></switch>'
    assert len(from_svg(body.format(BOX)).liner.ornaments) == 1


def test_elements_of_another_vocabulary_draw_nothing():
    """SVG does not show them, so they are passed by; one that may hold a role is a mistake."""
    body = '<k:view xmlns:k="urn:k" id="{}"><k:grid/></k:view>'
    assert from_svg(body.format("base")).left_out == ()
    with pytest.raises(InputErrors, match=r"view in line .* such an element is not read"):
        from_svg(body.format("ornament"))


def test_style_sheets_tell_what_is_hidden_and_filled():
    """A hidden zone is no zone; an open line that is not filled is not closed."""
    sheet = "<style>.h{display:none} #a.n, path.n{fill:none}</style>"
    found = from_svg(f'{sheet}<g id="blank" class="h">{BOX}</g>')
    assert found.left_out == (("a shape on layer 'blank'", "'blank' is hidden", 1),)
    with pytest.raises(InputErrors, match="does not close"):
        from_svg(f'{sheet}<g id="ornament"><path class="n" d="M9 9h50v50"/></g>')


def test_a_shape_may_be_seen_in_a_group_that_is_not():
    """So the standard has it of visibility, not of display."""
    seen = BOX.replace("<rect", '<rect visibility="visible"')
    for hiding, count in (("visibility:hidden", 1), ("display:none", 0)):
        found = from_svg(f'<g id="ornament" style="{hiding}">{seen}</g>')
        assert len(found.liner.ornaments) == count


def test_classes_give_roles_and_no_names():
    """Programs number them by looks: look-1 is no name of a heron."""
    found = from_svg(
        f'<g id="ornament">{BOX.replace("<rect", "<rect class=`look-1`")}</g>'.replace("`", '"')
    )
    assert found.liner.ornaments[0].name == "ornament 1"


def test_a_shape_without_size_is_told():
    """The standard does not show it; who drew it may not know."""
    found = from_svg('<g id="ornament"><circle r="0"/><path d=""/></g>')
    assert [why for _, why, _ in found.left_out] == [
        "it has no size, so by the standard it is not shown"
    ] * 2


def test_a_page_may_be_filled_by_the_drawing():
    """Of two scales `slice` takes the larger, `meet` the smaller (W3C, SVG 1.1, 7.8)."""
    for fit, width in (("xMinYMin meet", 2400), ("xMinYMin slice", 4800)):
        head = f'width="4800mm" height="1200mm" viewBox="0 0 2400 1200" preserveAspectRatio="{fit}"'
        assert bounds_mm(from_svg("", head=head).liner.outline)[2] == width


def test_a_drawing_that_is_transformed_as_a_whole_is_refused():
    """SVG 1.1 knows no such thing, SVG 2 does: two programs show two sizes."""
    head = 'width="2400mm" height="1200mm" viewBox="0 0 2400 1200" transform="scale(2)"'
    with pytest.raises(InputError, match="the drawing as a whole must not be transformed"):
        from_svg("", head=head)


def test_an_open_shape_that_is_filled_is_closed_and_told():
    """The standard closes it by a straight line where it is filled."""
    found = from_svg('<g id="ornament"><path d="M100 200h300v400h-300"/></g>')
    assert bounds_mm(only(found).outline) == (100, 600, 400, 1000)
    assert any("closed by a straight line of 400 mm" in note for note in found.notes)


def test_a_clip_is_told_on_ornaments_and_refused_on_zones():
    """Taken whole an ornament is only larger; a zone would be too large."""
    found = from_svg(f'<g id="ornament" clip-path="url(#c)">{BOX}</g>')
    assert "Clips and masks are not applied; ornaments under them are taken whole" in found.notes
    with pytest.raises(InputErrors, match="its clip-path is not applied"):
        from_svg(f'<g id="blank" clip-path="url(#c)">{BOX}</g>')


def test_warnings_for_traps():
    """Lengths with units inside a drawing, style sheets, a stretched page."""
    found = from_svg(
        '<style>g > .a{display:none}</style><circle class="ornament" r="9mm" cx="90mm" cy="90mm"/>'
    )
    told = " ".join(found.notes)
    assert "counts 96 px to the inch" in told
    assert "not read of the style sheets, shapes they hide are taken: 'g > .a'" in told
    head = 'width="2400mm" height="600mm" viewBox="0 0 2400 1200" preserveAspectRatio="none"'
    found = from_svg("", head=head)
    assert "x and y have different scales" in found.notes[0]
    assert bounds_mm(found.liner.outline) == (0, 0, 2400, 600)


def test_copies_are_limited():
    """Ten copies of ten copies ... are refused before they take the machine."""
    groups = ['<g id="u0"><path d="M0 0h1v1z"/></g>']
    groups += [f'<g id="u{n}">{f"""<use href="#u{n - 1}"/>""" * 10}</g>' for n in range(1, 7)]
    body = f'<defs>{"".join(groups)}</defs><use href="#u6"/>'
    with pytest.raises(InputError, match="copies made by use may come to 20000 elements"):
        read_svg("a.svg", svg_bytes(body), OPTIONS)
