//! Where water goes that comes to the edge of a deck: along the edge board to the outlets, and where it stands or spills.

use super::eave::EdgePoint;
use super::space::{length, minus};
use crate::reason::formula;
use crate::units::{Area, Length};

/// What runs to one outlet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Catchment {
    /// The outlet, by its place among the points of the edge.
    pub outlet: usize,
    /// In plan, what drains to it.
    pub area: Area,
    /// How deep water stands over it before all of its share has found another way, should it be blocked; nothing where there is
    /// no other.
    pub depth_if_blocked: Option<Length>,
}

/// Catchments, and the deepest water that stands though every outlet is open.
#[derive(Clone, Debug, PartialEq)]
pub struct Drainage {
    /// One for each outlet, in the order given.
    pub catchments: Vec<Catchment>,
    /// Where water stands deepest behind the edge board, and how deep; nothing where it all runs off.
    pub ponding: Option<(usize, Length)>,
}

/// Heights nearer than this are level: a water line is not laid finer.
pub(super) const LEVEL: f64 = 0.001;

/// Follows water along the edge: from each point the way whose highest place is lower, and where both are level, the shorter.
/// Two ways that are level and equally long take half each. The end of a row has no outlet of its own.
#[must_use]
pub fn drainage(points: &[EdgePoint], closed: bool, outlets: &[usize]) -> Drainage {
    let mut catchments: Vec<Catchment> =
        outlets.iter().map(|&outlet| Catchment { outlet, area: Area::ZERO, depth_if_blocked: None }).collect();
    let mut ponding: Option<(usize, Length)> = None;
    for (number, point) in points.iter().enumerate() {
        let ways = ways(points, closed, outlets, number);
        for &(outlet, share) in &shares(&ways) {
            for catchment in catchments.iter_mut().filter(|one| one.outlet == outlet) {
                catchment.area = catchment.area + point.area * share;
            }
        }
        let over = ways.iter().map(|way| way.highest).fold(f64::INFINITY, f64::min);
        let deep = Length::m(over - point.place[2]);
        if over.is_finite() && deep.in_m() > LEVEL && ponding.is_none_or(|(_, deepest)| deep > deepest) {
            ponding = Some((number, deep));
        }
    }
    for catchment in &mut catchments {
        let blocked = catchment.outlet;
        let others: Vec<usize> = outlets.iter().copied().filter(|&outlet| outlet != blocked).collect();
        let over = ways(points, closed, &others, blocked).iter().map(|way| way.highest).fold(f64::INFINITY, f64::min);
        let deep = Length::m(over - points[blocked].place[2]).max(Length::ZERO);
        catchment.depth_if_blocked = over.is_finite().then_some(deep);
    }
    Drainage { catchments, ponding }
}

/// A way along the edge to an outlet.
struct Way {
    outlet: usize,
    highest: f64,
    long: f64,
}

fn ways(points: &[EdgePoint], closed: bool, outlets: &[usize], from: usize) -> Vec<Way> {
    let count = points.len();
    let step = |at: usize, forwards: bool| match (forwards, closed) {
        (true, true) => Some((at + 1) % count),
        (false, true) => Some((at + count - 1) % count),
        (true, false) => Some(at + 1).filter(|&next| next < count),
        (false, false) => at.checked_sub(1),
    };
    let walk = |forwards: bool| {
        let (mut at, mut way) = (from, Way { outlet: from, highest: points[from].place[2], long: 0.0 });
        for _ in 0..count {
            if outlets.contains(&at) {
                return Some(Way { outlet: at, ..way });
            }
            let next = step(at, forwards)?;
            way.highest = way.highest.max(points[next].place[2]);
            way.long += length(minus(points[next].place, points[at].place));
            at = next;
        }
        None
    };
    [true, false].into_iter().filter_map(walk).collect()
}

fn shares(ways: &[Way]) -> Vec<(usize, f64)> {
    match ways {
        [] => Vec::new(),
        [only] => vec![(only.outlet, 1.0)],
        [one, other, ..] => {
            let lower = one.highest - other.highest;
            let shorter = one.long - other.long;
            let takes = if lower.abs() > LEVEL {
                lower
            } else if shorter.abs() > LEVEL {
                shorter
            } else {
                0.0
            };
            match takes.total_cmp(&0.0) {
                std::cmp::Ordering::Less => vec![(one.outlet, 1.0)],
                std::cmp::Ordering::Greater => vec![(other.outlet, 1.0)],
                std::cmp::Ordering::Equal => vec![(one.outlet, 0.5), (other.outlet, 0.5)],
            }
        }
    }
}

formula! {
    /// Rain that an outlet carries, in cubic metres a second. What the soil holds back is left out, on the safe side.
    ///
    /// ```text
    /// Q = i A        i: rain in a time, as a depth, A: area in plan
    /// ```
    /// Source: the rational method, all rain runs off.
    pub fn rain_flow_m3_s(rain: crate::units::Speed, catchment: Area) -> f64 {
        rain.in_m_s() * catchment.in_m2()
    }
}

formula! {
    /// Width of an overflow in the edge board that passes the whole flow at a given depth of water over its sill.
    ///
    /// ```text
    /// b = Q / (√g (2 h / 3)^(3/2))        h: depth of standing water over the sill
    /// ```
    /// Source: critical flow over a broad sill, any textbook of hydraulics; losses are left out, so make it wider.
    pub fn overflow_width(flow_m3_s: f64, depth: Length, gravity_m_s2: f64) -> Length {
        Length::m(flow_m3_s / (gravity_m_s2.sqrt() * (2.0 / 3.0 * depth.in_m()).powf(1.5)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ring(heights: &[f64]) -> Vec<EdgePoint> {
        let point = |(number, &height): (usize, &f64)| {
            let turn = std::f64::consts::TAU * number as f64 / heights.len() as f64;
            EdgePoint { place: [turn.cos(), turn.sin(), height], along: Length::ZERO, area: Area::m2(1.0) }
        };
        heights.iter().enumerate().map(point).collect()
    }

    #[test]
    fn a_level_edge_gives_each_outlet_what_lies_nearest() {
        let found = drainage(&ring(&[0.0; 8]), true, &[0, 4]);
        assert_eq!(found.catchments.iter().map(|one| one.area.in_m2()).collect::<Vec<_>>(), [4.0, 4.0]);
        assert_eq!(found.ponding, None);
        let found = drainage(&ring(&[0.0; 8]), true, &[0, 2]);
        assert_eq!(found.catchments.iter().map(|one| one.area.in_m2()).collect::<Vec<_>>(), [4.0, 4.0]);
    }

    #[test]
    fn water_takes_the_way_with_the_lower_barrier_and_stands_before_it() {
        // Outlet at 0. Place 2 lies low, behind 1 at 60 mm and 3 at 40 mm: it spills over 3.
        let found = drainage(&ring(&[0.0, 0.06, 0.01, 0.04, 0.02]), true, &[0]);
        assert_eq!(found.catchments[0].area, Area::m2(5.0));
        assert_eq!(found.catchments[0].depth_if_blocked, None);
        let (place, deep) = found.ponding.unwrap();
        assert_eq!(place, 2);
        assert!((deep - Length::mm(30.0)).abs() < Length::mm(1e-9));
    }

    #[test]
    fn a_blocked_outlet_fills_up_to_the_lowest_way_to_the_next() {
        let found = drainage(&ring(&[0.0, 0.05, 0.0, 0.08]), true, &[0, 2]);
        for catchment in found.catchments {
            assert!((catchment.depth_if_blocked.unwrap() - Length::mm(50.0)).abs() < Length::mm(1e-9));
        }
    }

    #[test]
    fn an_overflow_carries_the_published_flow_of_a_broad_sill() {
        // 1.705 b h^1.5 is the usual figure of a broad-crested weir in metres, from memory.
        let width = overflow_width(0.002, Length::mm(20.0), 9.81).value.in_m();
        assert!((1.705 * width * 0.02_f64.powf(1.5) / 0.002 - 1.0).abs() < 1e-3);
        let storm = crate::units::Speed::m_s(100e-3 / 3600.0);
        assert!((rain_flow_m3_s(storm, Area::m2(36.0)).value - 0.001).abs() < 1e-15);
    }
}
