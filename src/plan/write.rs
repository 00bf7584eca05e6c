//! Parts as a table.

use super::material::sides_text;
use super::work::{Joint, SHEET};
use crate::measure::write::exactly;
use crate::shop::{Part, Shape};
use crate::table::table;

/// Parts as comma-separated text that `benchrule plan` reads: rails and strips by their long points, sheets with a width.
pub fn parts_csv(parts: &[Part]) -> String {
    let head = ["name", "quantity", "length", "short", "width", "wood", "section", "joint", "mitre", "tilt", "show"];
    let mut rows = vec![head.map(String::from)];
    for part in parts {
        let none = String::new;
        let [length, short, width, section, joint, mitre, tilt, show] = match &part.shape {
            Shape::Sheet(sheet) => {
                let (width, height) = (exactly(&sheet.width), exactly(&sheet.height));
                [height, none(), width, exactly(&sheet.thickness), SHEET.into(), none(), none(), none()]
            }
            Shape::Stick(stick) => {
                let section = stick.section.as_ref().map(|(width, thickness)| sides_text(width, thickness));
                let joint = Joint::of(stick).word().to_string();
                let (mitre, tilt) = (exactly(&stick.mitre), exactly(&stick.tilt));
                let (long, short) = (exactly(&stick.long), exactly(&stick.short));
                [long, short, none(), section.unwrap_or_default(), joint, mitre, tilt, stick.show.to_string()]
            }
        };
        rows.push([
            part.name.clone(),
            part.quantity.to_string(),
            length,
            short,
            width,
            part.material.clone(),
            section,
            joint,
            mitre,
            tilt,
            show,
        ]);
    }
    table(rows)
}

#[cfg(test)]
mod tests {
    use super::super::{Work, read_parts};
    use super::*;
    use crate::measure::Unit;
    use crate::rules::tests::designed;
    use crate::shop::parts;

    /// What a table of parts tells is what the design itself is planned with: lengths, angles, overlap.
    #[test]
    fn parts_come_back_as_they_were_written() {
        let art = ("art", "16 x 20 x 3/4");
        for lines in [
            vec![art],
            vec![art, ("moulding", "reversible")],
            vec![art, ("moulding", "reversible"), ("slope", "15deg")],
            vec![art, ("slope", "7 1/2deg"), ("face", "1 3/8")],
        ] {
            let parts = parts(&designed(&lines));
            let mut found = Vec::new();
            let (read, _) = read_parts("parts.csv", &parts_csv(&parts), Unit::named("in"), &mut found).unwrap();
            assert!(found.is_empty(), "{lines:?}: {found:?}");
            let told = Work::of_designs(&[("frame".into(), parts)]);
            assert_eq!((read.parts.len(), read.sheets.len()), (told.parts.len(), told.sheets.len()), "{lines:?}");
            for (one, other) in read.sheets.iter().zip(&told.sheets) {
                assert_eq!((&one.name, one.quantity, &one.material), (&other.name, other.quantity, &other.material));
                assert!(one.width.same(&other.width) && one.height.same(&other.height), "{lines:?}");
            }
            for (one, other) in read.parts.iter().zip(&told.parts) {
                assert_eq!((&one.name, one.quantity, one.joint), (&other.name, other.quantity, other.joint));
                assert_eq!(one.material, other.material);
                for (one, other) in [
                    (&one.length, &other.length),
                    (&one.short, &other.short),
                    (&one.mitre, &other.mitre),
                    (&one.tilt, &other.tilt),
                    (&one.overlap(), &other.overlap()),
                ] {
                    // A root or a sine comes back as the decimal that it was written as.
                    let apart = (one.to_f64() - other.to_f64()).abs();
                    assert!(apart < 1e-12, "{lines:?}: {} and {}", one.to_text(), other.to_text());
                }
            }
        }
        assert!(parts(&designed(&[art, ("slope", "15deg")])).iter().any(|part| matches!(&part.shape,
            Shape::Stick(stick) if stick.tilt.amount.is_positive())));
    }
}
