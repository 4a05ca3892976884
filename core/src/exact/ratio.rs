use core::cmp::Ordering;
use core::fmt;

/// A fraction in lowest terms with a positive denominator.
///
/// Two equal ratios are always the same bits, so `==` and `Hash` mean what
/// they say. Nothing here rounds and nothing wraps: a result that does not fit
/// is [`RatioError::Overflow`].
///
/// ```
/// use latheside_core::exact::Ratio;
/// let inch = Ratio::new(254, 10).unwrap();
/// assert_eq!(inch.to_string(), "127/5");
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct Ratio {
    num: i128,
    den: i128,
}

/// Why a fraction cannot be had.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum RatioError {
    /// The denominator is zero.
    ZeroDenominator,
    /// The reduced fraction does not fit.
    Overflow,
}

impl fmt::Display for RatioError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            RatioError::ZeroDenominator => "a fraction can't have nothing below the bar",
            RatioError::Overflow => "the number is too large to keep exactly",
        })
    }
}

impl core::error::Error for RatioError {}

/// The greatest common divisor; that of zero and `b` is `b`.
#[must_use]
pub const fn gcd(mut a: u128, mut b: u128) -> u128 {
    while b != 0 {
        // Narrow as soon as both fit: 128-bit division is slow in wasm.
        if a <= u64::MAX as u128 && b <= u64::MAX as u128 {
            let (mut x, mut y) = (a as u64, b as u64);
            while y != 0 {
                (x, y) = match x.checked_rem(y) {
                    Some(rest) => (y, rest),
                    None => (x, 0),
                };
            }
            return x as u128;
        }
        (a, b) = match a.checked_rem(b) {
            Some(rest) => (b, rest),
            None => (a, 0),
        };
    }
    a
}

impl Ratio {
    /// Nothing.
    pub const ZERO: Ratio = Ratio { num: 0, den: 1 };
    /// One.
    pub const ONE: Ratio = Ratio { num: 1, den: 1 };

    /// The fraction `num / den` in lowest terms.
    ///
    /// # Errors
    ///
    /// [`RatioError::ZeroDenominator`] when `den` is zero.
    /// [`RatioError::Overflow`] when the reduced fraction does not fit.
    pub const fn new(num: i128, den: i128) -> Result<Ratio, RatioError> {
        if den == 0 {
            return Err(RatioError::ZeroDenominator);
        }
        if num == i128::MIN || den == i128::MIN {
            return Err(RatioError::Overflow);
        }
        let common = gcd(num.unsigned_abs(), den.unsigned_abs()) as i128;
        let common = if den < 0 { common.wrapping_neg() } else { common };
        match (num.checked_div(common), den.checked_div(common)) {
            (Some(num), Some(den)) => Ok(Ratio { num, den }),
            _ => Err(RatioError::Overflow),
        }
    }

    /// A whole number.
    #[must_use]
    pub const fn whole(n: i64) -> Ratio {
        Ratio { num: n as i128, den: 1 }
    }

    /// `num / den` for the project's own tables; anything unusable is zero, which the
    /// tables' tests would show.
    #[must_use]
    pub const fn of(num: i64, den: i64) -> Ratio {
        match Ratio::new(num as i128, den as i128) {
            Ok(ratio) => ratio,
            Err(_) => Ratio::ZERO,
        }
    }

    /// What stands above the bar; its sign is the ratio's.
    #[must_use]
    pub const fn numer(self) -> i128 {
        self.num
    }

    /// What stands below the bar, never less than one.
    #[must_use]
    pub const fn denom(self) -> i128 {
        self.den
    }

    /// Whether nothing is left below the bar.
    #[must_use]
    pub const fn is_whole(self) -> bool {
        self.den == 1
    }

    /// Whether it is nothing.
    #[must_use]
    pub const fn is_zero(self) -> bool {
        self.num == 0
    }

    /// Whether it is more than nothing.
    #[must_use]
    pub const fn is_positive(self) -> bool {
        self.num > 0
    }

    /// Whether it is less than nothing.
    #[must_use]
    pub const fn is_negative(self) -> bool {
        self.num < 0
    }

    /// The same size, never negative.
    #[must_use]
    pub const fn abs(self) -> Ratio {
        // `new` refuses i128::MIN, so this never wraps.
        Ratio { num: self.num.wrapping_abs(), den: self.den }
    }

    /// The same size, the other way.
    #[must_use]
    pub const fn neg(self) -> Ratio {
        Ratio { num: self.num.wrapping_neg(), den: self.den }
    }

    /// Upside down.
    ///
    /// # Errors
    ///
    /// [`RatioError::ZeroDenominator`] for zero.
    pub const fn recip(self) -> Result<Ratio, RatioError> {
        Ratio::new(self.den, self.num)
    }

    /// The sum.
    ///
    /// # Errors
    ///
    /// [`RatioError::Overflow`].
    pub const fn add(self, other: Ratio) -> Result<Ratio, RatioError> {
        let (Some(a), Some(b), Some(den)) = (
            self.num.checked_mul(other.den),
            other.num.checked_mul(self.den),
            self.den.checked_mul(other.den),
        ) else {
            return Err(RatioError::Overflow);
        };
        match a.checked_add(b) {
            Some(num) => Ratio::new(num, den),
            None => Err(RatioError::Overflow),
        }
    }

    /// The difference.
    ///
    /// # Errors
    ///
    /// [`RatioError::Overflow`].
    pub const fn sub(self, other: Ratio) -> Result<Ratio, RatioError> {
        self.add(other.neg())
    }

    /// The product, reduced crosswise first so that it overflows only when it must.
    ///
    /// # Errors
    ///
    /// [`RatioError::Overflow`].
    pub const fn mul(self, other: Ratio) -> Result<Ratio, RatioError> {
        let (Ok(a), Ok(b)) = (Ratio::new(self.num, other.den), Ratio::new(other.num, self.den))
        else {
            return Err(RatioError::Overflow);
        };
        match (a.num.checked_mul(b.num), a.den.checked_mul(b.den)) {
            (Some(num), Some(den)) => Ratio::new(num, den),
            _ => Err(RatioError::Overflow),
        }
    }

    /// The quotient.
    ///
    /// # Errors
    ///
    /// [`RatioError::ZeroDenominator`] when `other` is zero, [`RatioError::Overflow`].
    pub const fn div(self, other: Ratio) -> Result<Ratio, RatioError> {
        match other.recip() {
            Ok(upside_down) => self.mul(upside_down),
            Err(why) => Err(why),
        }
    }

    /// The largest whole number not above it.
    #[must_use]
    pub const fn floor(self) -> i128 {
        // The denominator is at least one, so neither can fail.
        match self.num.checked_div_euclid(self.den) {
            Some(whole) => whole,
            None => 0,
        }
    }

    /// The nearest whole number; a half goes away from zero.
    #[must_use]
    pub const fn round(self) -> i128 {
        let size = self.num.unsigned_abs();
        let den = self.den.unsigned_abs();
        let (Some(whole), Some(rest)) = (size.checked_div(den), size.checked_rem(den)) else {
            return 0;
        };
        let up = rest >= den.wrapping_sub(rest);
        let size = (whole as i128).wrapping_add(up as i128);
        if self.num < 0 { size.wrapping_neg() } else { size }
    }

    /// The nearest float: for trigonometry and display, never for a decision that can be exact.
    #[must_use]
    pub fn to_f64(self) -> f64 {
        // Both parts round once, so the quotient is good to two units in the last place.
        self.num as f64 / self.den as f64
    }
}

impl Ord for Ratio {
    fn cmp(&self, other: &Ratio) -> Ordering {
        if let (Some(a), Some(b)) =
            (self.num.checked_mul(other.den), other.num.checked_mul(self.den))
        {
            return a.cmp(&b);
        }
        // Too large to cross-multiply: compare whole parts, then the rests upside down.
        let (a, b) = (self.floor(), other.floor());
        if a != b {
            return a.cmp(&b);
        }
        let rest = |r: &Ratio| r.num.checked_rem_euclid(r.den).unwrap_or(0);
        match (rest(self), rest(other)) {
            (0, 0) => Ordering::Equal,
            (0, _) => Ordering::Less,
            (_, 0) => Ordering::Greater,
            (x, y) => Ratio { num: other.den, den: y }.cmp(&Ratio { num: self.den, den: x }),
        }
    }
}

impl PartialOrd for Ratio {
    fn partial_cmp(&self, other: &Ratio) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl From<u32> for Ratio {
    fn from(n: u32) -> Ratio {
        Ratio { num: i128::from(n), den: 1 }
    }
}

impl Default for Ratio {
    fn default() -> Ratio {
        Ratio::ZERO
    }
}

/// `"127/5"`, or `"3"` where it is whole.
impl fmt::Display for Ratio {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.den == 1 {
            write!(f, "{}", self.num)
        } else {
            write!(f, "{}/{}", self.num, self.den)
        }
    }
}

impl fmt::Debug for Ratio {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;
    use proptest::prelude::*;

    #[test]
    fn lowest_terms_and_a_positive_denominator() {
        assert_eq!(Ratio::of(-4, -6), Ratio::of(2, 3));
        assert_eq!(Ratio::of(4, -6).to_string(), "-2/3");
        assert_eq!(Ratio::new(1, 0), Err(RatioError::ZeroDenominator));
        assert_eq!(Ratio::new(i128::MIN, 3), Err(RatioError::Overflow));
    }

    #[test]
    fn a_half_rounds_away_from_nothing() {
        for (num, den, nearest) in [(1, 2, 1), (-1, 2, -1), (5, 2, 3), (7, 3, 2), (-7, 3, -2)] {
            assert_eq!(Ratio::of(num, den).round(), nearest, "{num}/{den}");
        }
        assert_eq!(Ratio::of(-1, 2).floor(), -1);
    }

    #[test]
    fn the_largest_numbers_are_refused_not_wrapped() {
        let huge = Ratio::new(i128::MAX, 1).unwrap();
        assert_eq!(huge.add(Ratio::ONE), Err(RatioError::Overflow));
        assert_eq!(huge.mul(Ratio::of(3, 2)), Err(RatioError::Overflow));
        let small = Ratio::new(1, i128::MAX).unwrap();
        assert!(small < Ratio::ONE && small > Ratio::ZERO && huge > small);
        assert!(Ratio::new(i128::MAX, 2).unwrap() > Ratio::new(i128::MAX, 3).unwrap());
    }

    proptest! {
        #[test]
        fn sums_and_products_undo(a in -9999i64..9999, b in 1i64..9999, c in -9999i64..9999, d in 1i64..9999) {
            let (x, y) = (Ratio::of(a, b), Ratio::of(c, d));
            prop_assert_eq!(x.add(y).unwrap().sub(y).unwrap(), x);
            if c != 0 {
                prop_assert_eq!(x.mul(y).unwrap().div(y).unwrap(), x);
            }
            prop_assert_eq!(x.cmp(&y), (a * d).cmp(&(c * b)));
        }

        #[test]
        fn order_is_the_same_for_large_numbers(a in any::<i64>(), b in 1i64.., c in any::<i64>(), d in 1i64.., k in 1i128..1_000_000_000_000) {
            let small = Ratio::of(a, b).cmp(&Ratio::of(c, d));
            // Numbers beyond cross-multiplication take the other road and must agree.
            if let (Ok(x), Ok(y)) = (Ratio::new(i128::from(a) * k, i128::from(b)), Ratio::new(i128::from(c) * k, i128::from(d))) {
                prop_assert_eq!(x.cmp(&y), small);
            }
        }
    }
}
