use crate::quantity::Measure;

/// The shape of a form: its name and its fields in the order in which they are written.
#[derive(Debug)]
pub struct Spec {
    /// What the form is for, in the trade's words.
    pub name: &'static str,
    /// Its fields.
    pub fields: &'static [Field],
}

impl PartialEq for Spec {
    fn eq(&self, other: &Spec) -> bool {
        self.name == other.name
    }
}

impl Spec {
    /// The place of a key among the fields.
    #[must_use]
    pub fn place(&self, key: &str) -> Option<usize> {
        self.fields.iter().position(|field| field.key == key)
    }

    /// The field of that key.
    #[must_use]
    pub fn field(&self, key: &str) -> Option<&'static Field> {
        self.fields.iter().find(|field| field.key == key)
    }
}

/// One thing asked for.
#[derive(Debug)]
pub struct Field {
    /// Its key in the file.
    pub key: &'static str,
    /// Its number in a link: given once, never changed, never used again for something else.
    pub wire: u8,
    /// What it is called on the screen.
    pub label: &'static str,
    /// What may stand there.
    pub shape: Shape,
}

/// A field with everything said.
pub(crate) const fn field(key: &'static str, wire: u8, label: &'static str, shape: Shape) -> Field {
    Field { key, wire, label, shape }
}

/// How far down a quantity may go.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bound {
    /// More than nothing.
    Positive,
    /// Nothing or more.
    NotNegative,
    /// Any.
    Any,
}

/// One of a few words.
#[derive(Debug, PartialEq, Eq)]
pub struct Choice {
    /// Its word in the file.
    pub id: &'static str,
    /// Its number in a link, as [`Field::wire`].
    pub wire: u8,
    /// How the screen says it.
    pub words: &'static str,
}

/// A choice with everything said.
pub(crate) const fn choice(id: &'static str, wire: u8, words: &'static str) -> Choice {
    Choice { id, wire, words }
}

/// What may stand in a field.
#[derive(Debug)]
pub enum Shape {
    /// A quantity, kept as written.
    Quantity(Measure, Bound),
    /// A whole number from the first to the second.
    Count(u32, u32),
    /// One of a few words.
    Choice(&'static [Choice]),
    /// Words of the person's own, at most so many characters.
    Text(usize),
    /// Yes or no.
    Flag,
    /// Several of a kind, at most so many; the word is what one of them is called.
    List(&'static Shape, usize, &'static str),
    /// Exactly two: least and most.
    Pair(&'static Shape),
    /// Either a bare value, or that value under this key with the machine's own word beside it
    /// under `how`.
    Named(&'static Shape, &'static str),
    /// A form within the form.
    Record(&'static Spec),
}

/// A length of more than nothing.
pub(crate) const LENGTH: Shape = Shape::Quantity(Measure::Length, Bound::Positive);
/// A length that may be nothing.
pub(crate) const LENGTH_OR_NONE: Shape = Shape::Quantity(Measure::Length, Bound::NotNegative);
/// A lead of more than nothing.
pub(crate) const LEAD: Shape = Shape::Quantity(Measure::Lead, Bound::Positive);
/// A ratio of more than nothing.
pub(crate) const RATIO: Shape = Shape::Quantity(Measure::Ratio, Bound::Positive);
/// An angle of nothing or more.
pub(crate) const ANGLE: Shape = Shape::Quantity(Measure::Angle, Bound::NotNegative);
/// A wheel's teeth.
pub(crate) const TEETH: Shape = Shape::Count(1, 999);
/// A name.
pub(crate) const NAME: Shape = Shape::Text(90);
