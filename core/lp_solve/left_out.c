/* What the solver still names of that which left_out.h leaves out. */
#include "commonlib.h"
#include "lp_MDO.h"
#include "lp_lib.h"
#include "lp_price.h"
#include "lp_report.h"
#include "lp_scale.h"

void report(lprec *lp, int level, char *format, ...) {}
char *explain(lprec *lp, char *format, ...) { return NULL; }

/* The functions that the factorisation calls through the problem's own table. */
MYBOOL set_callbacks(lprec *lp) {
  lp->clear_action = clear_action;
  lp->get_OF_active = get_OF_active;
  lp->get_basiscolumn = get_basiscolumn;
  lp->get_lpcolumn = obtain_column;
  lp->get_nonzeros = get_nonzeros;
  lp->get_total_iter = get_total_iter;
  lp->getMDO = getMDO;
  lp->invert = invert;
  lp->is_action = is_action;
  lp->is_obj_in_basis = is_obj_in_basis;
  lp->report = report;
  lp->set_action = set_action;
  lp->set_basisvar = set_basisvar;
  lp->userabort = userabort;
  return TRUE;
}

/* Nobody asks what a bound is worth, nor for the bounds of Lagrange's method. */
MYBOOL construct_duals(lprec *lp) { return TRUE; }
MYBOOL construct_sensitivity_duals(lprec *lp) { return TRUE; }
MYBOOL construct_sensitivity_obj(lprec *lp) { return TRUE; }
int lag_solve(lprec *lp, REAL start_bound, int num_iter) { return INFEASIBLE; }

/* The search begins at the slacks, or where it was: no other start is asked for. */
MYBOOL crash_basis(lprec *lp) {
  if (lp->basis_valid)
    lp->var_basic[0] = FALSE;
  else
    default_basis(lp);
  return TRUE;
}

/* Columns are searched and factorised in the order in which they come, and never scaled by Curtis and Reid's method; all
   are priced every time, one enters at a time, and the search in the dual takes no long steps. */
int __WINAPI getMDO(lprec *lp, MYBOOL *used, int *order, int *size, MYBOOL symmetric) { return 0; }
MYBOOL scaleCR(lprec *lp, REAL *change) { return FALSE; }
int partial_findBlocks(lprec *lp, MYBOOL autodefine, MYBOOL rows) { return 0; }
MYBOOL __WINAPI set_partialprice(lprec *lp, int count, int *start, MYBOOL rows) { return FALSE; }
int addCandidateVar(pricerec *candidate, multirec *multi, findCompare_func better, MYBOOL sorted) { return -1; }
MYBOOL multi_recompute(multirec *multi, int index, MYBOOL phase2, MYBOOL all) { return FALSE; }
int multi_enteringvar(multirec *multi, pricerec *current, int priority) { return 0; }

/* No presolve asks for rows to leave out, no column may be either nothing or large, there are no sets; and what was
   set once is not set anew. */
int BFP_CALLMODEL bfp_findredundant(lprec *lp, int items, getcolumnex_func column, int *rows, int *columns) {
  return 0;
}
int find_sc_bbvar(lprec *lp, int *count) { return 0; }
int identify_GUB(lprec *lp, MYBOOL mark) { return 0; }
MYBOOL mat_setvalue(MATrec *mat, int row, int column, REAL value, MYBOOL scaled) { return FALSE; }

/* Readers and writers of model files, and tables on paper. All say "failed". */
MYBOOL MPS_readfile(lprec **lp, char *name, int kind, int verbose) { return FALSE; }
MYBOOL __WINAPI MPS_readhandle(lprec **lp, FILE *file, int kind, int verbose) { return FALSE; }
MYBOOL __WINAPI MPS_readex(lprec **lp, void *handle, read_modeldata_func read, int kind, int verbose) {
  return FALSE;
}
MYBOOL MPS_writefile(lprec *lp, int kind, char *name) { return FALSE; }
MYBOOL MPS_writehandle(lprec *lp, int kind, FILE *file) { return FALSE; }
MYBOOL MPS_readBAS(lprec *lp, int kind, char *name, char *info) { return FALSE; }
MYBOOL MPS_writeBAS(lprec *lp, int kind, char *name) { return FALSE; }
MYBOOL LP_writefile(lprec *lp, char *name) { return FALSE; }
MYBOOL LP_writehandle(lprec *lp, FILE *file) { return FALSE; }
MYBOOL __WINAPI read_params(lprec *lp, char *name, char *options) { return FALSE; }
MYBOOL __WINAPI write_params(lprec *lp, char *name, char *options) { return FALSE; }
