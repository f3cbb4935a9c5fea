"""Work in shifts: how an order is judged, and what counting alone says of every order."""

from shiftwork import late_after, make_work

from nesting.ordering.shifts import Move, Way, Worth, judge, least_changes, least_end, rank


def test_an_order_is_judged_by_what_it_takes():
    """Two casts, the second on other dams and demoulded a shift late."""
    work = make_work([0, 1], [1, 1], [0, 0], late=(late_after(9), late_after(1, 4)))
    moves = [Move(0, 0, 0, Way.FIRST), Move(1, 0, 1, Way.RESET)]
    assert judge(work, moves) == Worth(late=4, changes=1, end=2)
    assert judge(work, []) == Worth(0, 0, 0)


def test_what_goes_first_decides_between_orders():
    """Few changes go before an early end, or after it."""
    few, soon = Worth(0, 1, 5), Worth(0, 2, 4)
    changes, finish = (make_work([0], [1], [0], finish_first=each) for each in (False, True))
    assert rank(changes, few) < rank(changes, soon)
    assert rank(finish, soon) < rank(finish, few)


def test_each_family_but_the_liners_first_takes_a_change():
    """Four families on two kinds of bed: 3 + 1 changes for one liner, 2 for two, none for four."""
    bounds = [
        least_changes(make_work([0, 1, 2, 3], [1, 1, 1, 1], [0, 0, 1, 1], liners))
        for liners in (1, 2, 4)
    ]
    assert bounds == [4, 2, 0]


def test_layouts_of_one_family_take_no_change():
    """Two layouts with the same dams count as one."""
    assert least_changes(make_work([0, 0], [1, 1], [0])) == 0


def test_liners_and_beds_share_casts_out_at_best():
    """Six casts: 6 shifts on one liner, 3 on two, and 6 again where there is one bed."""
    ends = [
        least_end(make_work([0], [6], [0], liners, [beds]))
        for liners, beds in ((1, 1), (2, 2), (2, 1))
    ]
    assert ends == [6, 3, 6]


def test_the_horizon_holds_the_slowest_order():
    """Three casts one after another, each two shifts under cover."""
    assert make_work([0], [3], [0], gap=2).horizon == 6
