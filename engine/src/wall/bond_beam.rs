//! The pieces of a bond beam: straight ones that follow a curved line, their laps, planks, bolts and shims.

use super::beam_pieces::{Worst, rise};
use crate::reason::formula;
use crate::solve::whole::rounded_up;
use crate::units::{Angle, Length, Volume};

formula! {
    /// Length of the bond beam over a straight run, between the corners at its ends.
    ///
    /// ```text
    /// l = L − c₁ − c₂        c₁, c₂: what the rounded corners take off the run
    /// ```
    /// Source: the whole is the sum of its parts; a straight line moved sideways keeps its length.
    pub fn beam_straight(run: Length; trims: Length) -> Length {
        run - trims
    }
}

formula! {
    /// Angle by which the bond beam turns over an arc.
    ///
    /// ```text
    /// θ = (L − c₁ − c₂) / R        c₁, c₂: what the rounded corners take off the run
    /// ```
    /// Source: the definition of the radian.
    pub fn beam_turn(run: Length, radius: Length; trims: Length) -> Angle {
        Angle::rad((run - trims) / radius)
    }
}

formula! {
    /// Angle by which the bond beam turns at a corner; between straight runs it is theirs, whatever the rounding.
    ///
    /// ```text
    /// θ = |angle from the direction of the one run to that of the next|, where the rounding begins and ends
    /// ```
    /// Source: the turning of a rounded corner, elementary geometry.
    pub fn beam_corner(; turn: f64) -> Angle {
        Angle::rad(turn)
    }
}

formula! {
    /// Radius of the middle of the bond beam on a curve.
    ///
    /// ```text
    /// R′ = R + n, where the room lies on the hollow side; R − n on the other
    /// ```
    /// Source: parallel circles have one centre.
    pub fn beam_radius(radius: Length, offset: Length; sign: f64) -> Length {
        radius + sign * offset
    }
}

formula! {
    /// Length of the bond beam along its middle over an arc or a corner.
    ///
    /// ```text
    /// l = θ R′
    /// ```
    /// Source: the definition of the radian.
    pub fn beam_arc(turn: Angle, radius: Length) -> Length {
        turn.in_rad() * radius
    }
}

formula! {
    /// Length of the bond beam along its middle over a run that follows a cubic curve.
    ///
    /// ```text
    /// l = L − c₁ − c₂ + θ n        θ: angle by which the run turns, c₁, c₂: what the rounded corners take off it
    /// ```
    /// Source: length of a parallel curve, differential geometry of plane curves.
    pub fn beam_curve(run: Length, offset: Length; trims: Length, turning: f64) -> Length {
        run - trims + turning * offset
    }
}

formula! {
    /// Straight pieces in one layer over a straight run: as few as the longest timber allows, all of one length.
    ///
    /// ```text
    /// n = l / (p − s), rounded up        p: longest timber, s: length of a scarf
    /// ```
    /// Source: each piece gains its length less a lap.
    pub fn straight_pieces(length: Length, piece: Length, scarf: Length) -> u64 {
        rounded_up(length / (piece - scarf)).max(1)
    }
}

formula! {
    /// Pieces in one layer over a curve: as few straight ones as leave the middle of the beam by no more than is allowed.
    ///
    /// Where they would be shorter than their joints must be apart, there are as many as have room, each sawn to the curve.
    ///
    /// ```text
    /// n: the least with R′ (1 − cos φ) ≤ f and 2 R′ sin φ + w tan φ ≤ p − s        φ = l / (2 n R′)
    /// where then l / n < k s:  n = l / (k s), rounded down
    /// f: how far a piece may leave the curve, p: longest timber, s: length of a scarf, w: width of the beam
    /// k: 1 for one layer; 2 for more, each second one with its joints over the middles of the pieces below
    /// ```
    /// Source: chord and height of an arc, elementary geometry.
    pub fn curved_pieces(
        length: Length, radius: Length, width: Length, piece: Length, scarf: Length, fit: Length, layers: u64; pieces: u64
    ) -> u64 {
        pieces
    }
}

formula! {
    /// Length to which a piece over a straight run is cut, its scarf with it.
    ///
    /// ```text
    /// c = l / n + s
    /// ```
    /// Source: equal parts, each with one lap.
    pub fn straight_cut(length: Length, pieces: u64, scarf: Length) -> Length {
        length / pieces as f64 + scarf
    }
}

formula! {
    /// Length to which a straight piece over a curve is cut: along its outer edge, from bevel to bevel, its scarf with it.
    ///
    /// ```text
    /// c = 2 R′ sin φ + w tan φ + s        φ = l / (2 n R′)
    /// ```
    /// Source: two spokes cut off a chord and a line parallel to it, elementary geometry; one lap to each piece.
    pub fn curved_cut(length: Length, radius: Length, pieces: u64, width: Length, scarf: Length) -> Length {
        Worst::of_arc(length, radius, pieces, width).mitred + scarf
    }
}

formula! {
    /// Length to which a plank is cut out of which a piece is sawn to the curve: from corner to corner of its round edge, its
    /// scarf with it.
    ///
    /// ```text
    /// c = 2 (R′ + ½ w) sin(l / (2 n R′)) + s
    /// ```
    /// Source: chord of an arc, elementary geometry; one lap to each piece.
    pub fn sawn_cut(length: Length, radius: Length, pieces: u64, width: Length, scarf: Length) -> Length {
        Worst::of_arc(length, radius, pieces, width).sawn + scarf
    }
}

formula! {
    /// Bevel of the ends of each piece, from square: half the angle by which one piece turns from the next.
    ///
    /// ```text
    /// β = θ / (2 n)
    /// ```
    /// Source: a mitre halves the angle between two timbers.
    pub fn bevel(turn: Angle, pieces: u64) -> Angle {
        turn / (2.0 * pieces as f64)
    }
}

formula! {
    /// Height of the curve over the chord of one piece: how far a straight one leaves it, or what a sawn one is bent by.
    ///
    /// ```text
    /// f = R′ (1 − cos(l / (2 n R′)))
    /// ```
    /// Source: height of an arc over its chord, elementary geometry.
    pub fn sagitta(length: Length, radius: Length, pieces: u64) -> Length {
        Worst::of_arc(length, radius, pieces, Length::ZERO).height
    }
}

formula! {
    /// Width of a plank out of which a piece can be sawn to the curve, as wide as the beam everywhere.
    ///
    /// ```text
    /// w′ = w + (R′ − ½ w) (1 − cos(l / (2 n R′)))
    /// ```
    /// Source: from the ends of the hollow edge to the crown of the round one, elementary geometry.
    pub fn plank_width(width: Length, length: Length, radius: Length, pieces: u64) -> Length {
        width + (radius - 0.5 * width) * rise(length, radius, pieces)
    }
}

formula! {
    /// Pieces of the bond beam in all layers.
    ///
    /// In every second layer each goes from the middle of a piece below to the middle of the next: where two parts meet, one
    /// is half of a piece of the one and half of a piece of the other. On a wall that does not go round it begins and ends with
    /// half a piece, and has one more.
    ///
    /// ```text
    /// N = m Σ n closed,  m Σ n + m / 2, rounded down, from end to end        m: layers
    /// ```
    /// Source: the sum of its parts.
    pub fn all_pieces(layers: u64; sum: u64, is_closed: bool) -> u64 {
        layers * sum + if is_closed { 0 } else { layers / 2 }
    }
}

formula! {
    /// Length of all pieces of the bond beam as they are cut.
    ///
    /// ```text
    /// l = m Σ n c        m: layers
    /// ```
    /// Source: the sum of its parts.
    pub fn all_cut(layers: u64; sum: Length) -> Length {
        layers as f64 * sum
    }
}

formula! {
    /// The longest piece of the bond beam as it is cut.
    ///
    /// ```text
    /// max c
    /// ```
    /// Source: the largest of its parts; the piece that is longest is named.
    pub fn longest_cut(; longest: Length) -> Length {
        longest
    }
}

formula! {
    /// Scarfs of the bond beam: one from each piece to the next of its layer, all round or from end to end.
    ///
    /// ```text
    /// k = N closed,  N − m from end to end        m: layers
    /// ```
    /// Source: joints between the pieces of a ring, or of a row.
    pub fn beam_scarfs(pieces: u64, layers: u64; is_closed: bool) -> u64 {
        if is_closed { pieces } else { pieces.saturating_sub(layers) }
    }
}

formula! {
    /// Bolts through the scarfs of the bond beam.
    ///
    /// ```text
    /// b = k a        a: bolts through each
    /// ```
    /// Source: the same number in each.
    pub fn beam_bolts(scarfs: u64, each: u64) -> u64 {
        scarfs * each
    }
}

formula! {
    /// Places at which the bond beam lies on a pair of level shims.
    ///
    /// ```text
    /// n = l / a, rounded up
    /// ```
    /// Source: one in each spacing.
    pub fn beam_shims(length: Length, spacing: Length) -> u64 {
        rounded_up(length / spacing)
    }
}

formula! {
    /// Timber out of which the bond beam is cut: planks as wide as their curve asks for, laps with it.
    ///
    /// ```text
    /// V = h Σ n c w′        w′: width of the plank, of a straight piece the beam's own
    /// ```
    /// Source: volume of boards; the layers share the height.
    pub fn beam_timber(height: Length; sum: f64) -> Volume {
        Volume::m3(height.in_m() * sum)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_ring_of_six_pieces_is_a_regular_hexagon() {
        let radius = Length::m(2.0);
        let length = beam_arc(Angle::rad(std::f64::consts::TAU), radius).value;
        assert!((curved_cut(length, radius, 6, Length::ZERO, Length::ZERO).value.in_m() - 2.0).abs() < 1e-15);
        assert!((bevel(Angle::deg(360.0), 6).value.in_deg() - 30.0).abs() < 1e-12);
        let height = sagitta(length, radius, 6).value.in_m();
        assert!((height - (2.0 - 3.0_f64.sqrt())).abs() < 1e-15);
    }

    #[test]
    fn of_two_layers_from_end_to_end_the_upper_has_one_piece_and_one_scarf_more() {
        // Five pieces below have four scarfs; over their middles lie four whole pieces and two halves, with five scarfs.
        for (layers, is_closed, pieces, scarfs) in
            [(1, false, 5, 4), (2, false, 11, 9), (3, false, 16, 13), (2, true, 10, 10)]
        {
            let all = all_pieces(layers, 5, is_closed).value;
            assert_eq!((all, beam_scarfs(all, layers, is_closed).value), (pieces, scarfs));
        }
    }

    #[test]
    fn two_pieces_over_a_quarter_of_a_circle_are_cut_along_their_outer_edge() {
        // The middle of the beam turns from (1, 0) to (0, 1); the joint between the two pieces lies on the spoke at 45°. Their
        // outer edges run parallel to their chords, 0.1 m outside of them, and meet the spokes at 1.108 239 m from the centre:
        // at (1.108 239, 0) and at (0.783 643, 0.783 643), 0.848 210 m apart.
        let [radius, width, scarf] = [Length::m(1.0), Length::mm(200.0), Length::mm(300.0)];
        let length = beam_arc(Angle::deg(90.0), radius).value;
        let mitred = curved_cut(length, radius, 2, width, scarf).value.in_m();
        assert!((mitred - 1.148_210).abs() < 5e-7, "{mitred}");
        // Sawn, their outer corners lie on the circle of 1.1 m: at (1.1, 0) and at (0.777 817, 0.777 817), 0.841 904 m apart.
        let sawn = sawn_cut(length, radius, 2, width, scarf).value.in_m();
        assert!((sawn - 1.141_904).abs() < 5e-7, "{sawn}");
    }

    #[test]
    fn the_longest_timber_less_its_scarf_bounds_every_straight_piece() {
        let [piece, scarf] = [Length::m(3.0), Length::m(0.4)];
        assert_eq!(straight_pieces(Length::m(5.2), piece, scarf).value, 2);
        assert_eq!(straight_pieces(Length::m(5.3), piece, scarf).value, 3);
    }

    #[test]
    fn a_plank_holds_the_inner_ends_and_the_outer_crown_of_a_sawn_piece() {
        let [width, radius] = [Length::m(0.2), Length::m(1.0)];
        let length = beam_arc(Angle::deg(60.0), radius).value;
        let plank = plank_width(width, length, radius, 1).value.in_m();
        assert!((plank - (1.1 - 0.9 * 0.75_f64.sqrt())).abs() < 1e-15, "{plank}");
    }
}
