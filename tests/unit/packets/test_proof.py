"""The beds and the proof as pages: radii, sizes, bounds, and the checker's verdict as it is."""

from packets import cells, example_packet, grid, grids, hand_packet, section, words

from nesting.checking.findings import Finding


def test_beds_are_told_with_their_faces():
    """The drum: 3000 mm, face radius 3013 mm; 1000 mm flat gives 1000 x 3013 / 3006.5 mm."""
    page = section(example_packet("ferry-terminal"), "beds")
    rows = cells(grid(page, "Beds"))
    assert rows[0] == ["table", "flat", "-", "-", "-", "-", "1000", "13"]
    assert rows[1] == ["drum", "convex", "3000", "x", "0.5 of 13", "3013", "1002.162", "7"]
    assert "panel faces are concave, radius 3013 mm" in words(page)
    sizes = cells(grid(page, "Sizes marked out otherwise"))
    assert [row[0] for row in sizes] == ["B1", "B2", "C1", "C2"]


def test_flat_beds_change_no_size():
    """The page says so, and has the one table."""
    page = section(hand_packet(), "beds")
    assert "Every panel is marked out at its ordered size." in words(page)
    assert len(grids(page)) == 1


def test_the_proof_and_the_areas_are_told():
    """The bound, why, no word of what is not proved, and the account of all casts."""
    page = section(example_packet("ferry-terminal"), "proof")
    text = words(page)
    assert "and 26 / 2 = 13: at least 13 casts" in text
    assert "fewest sets of dams PROVED (at least 6)." in text
    assert "shortest dams" not in text
    assert "Least clearance from ornament: 40 mm, at dam 3 of layout 5" in text
    assert cells(grid(page, "Areas in m2"))[-1][-1] == "40.5 %"


def test_a_sound_schedule_gets_the_checkers_word():
    """No finding, no fault."""
    assert "found no fault" in words(section(hand_packet(), "proof"))


def test_faults_are_told_and_never_called_sound():
    """Each finding has its line, and the page says not to cast."""
    fault = Finding(206, "layout 1, dam 3", "it stands along no panel")
    text = words(section(hand_packet(findings=[fault]), "proof"))
    assert "found 1 at fault. Do not cast from this." in text
    assert str(fault) in text
    assert "no fault" not in text
